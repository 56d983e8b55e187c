import { element } from './element.ts';
import type { Tooltip } from './slimVega.ts';

/** The values at the pointer, in a box of our own beside it. Text only. */
export interface TooltipBox {
  readonly show: Tooltip;
  remove(): void;
}

export function tooltipBox(parent: HTMLElement): TooltipBox {
  const box = element('div', 'washboard-tooltip');
  box.hidden = true;
  // What it says stands in the table and in the chart's words; read out at every move it would only disturb.
  box.setAttribute('aria-hidden', 'true');
  parent.append(box);
  return {
    show(_handler, event, _item, value) {
      const text = typeof value === 'string' || typeof value === 'number' ? String(value) : '';
      box.hidden = text === '';
      if (text === '') return;
      box.textContent = text;
      const { width, height } = box.getBoundingClientRect();
      const left = event.clientX + 14 + width > innerWidth ? event.clientX - 14 - width : event.clientX + 14;
      const top = event.clientY + 14 + height > innerHeight ? event.clientY - 14 - height : event.clientY + 14;
      box.style.left = `${Math.max(0, left)}px`;
      box.style.top = `${Math.max(0, top)}px`;
    },
    remove: () => box.remove(),
  };
}

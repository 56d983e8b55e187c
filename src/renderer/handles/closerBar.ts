import type { AxisRange } from '../../charts/making.ts';
import { element } from '../element.ts';
import { plain } from '../../values/number.ts';

/** What the bar asks. */
export interface BarAsks {
  showAll(): void;
  /** To what lies beside the stretch. */
  leaf(way: 1 | -1): void;
  link(isLinked: boolean): void;
}

/** Above a chart of which a stretch is looked at: which that is, the way back, and whether others go along. */
export class CloserBar {
  readonly element = element('div', 'washboard-closer');
  readonly #says = element('span', '');
  readonly #link = button('Link Charts');
  readonly #back = button('‹');
  readonly #on = button('›');

  constructor(asks: BarAsks) {
    const all = button('Show All');
    all.addEventListener('click', () => asks.showAll());
    this.#back.addEventListener('click', () => asks.leaf(-1));
    this.#on.addEventListener('click', () => asks.leaf(1));
    this.#link.title = 'Look at the same stretch in all charts over this axis';
    this.#link.addEventListener('click', () => asks.link(this.#link.getAttribute('aria-pressed') !== 'true'));
    this.#says.setAttribute('role', 'status');
    this.element.setAttribute('role', 'toolbar');
    this.element.setAttribute('aria-label', 'A closer look');
    this.element.append(this.#back, this.#says, this.#on, all, this.#link);
    this.element.hidden = true;
  }

  show(over: AxisRange | undefined, isLinked: boolean): void {
    this.element.hidden = over === undefined;
    this.#link.setAttribute('aria-pressed', String(isLinked));
    const [back, on] = over?.axis === 'time' ? ['Earlier', 'Later'] : ['Lower', 'Higher'];
    for (const [one, name] of [
      [this.#back, back],
      [this.#on, on],
    ] as const) {
      one.title = name;
      one.setAttribute('aria-label', name);
    }
    this.#says.textContent = over === undefined ? '' : stretchText(over);
  }
}

function button(label: string): HTMLButtonElement {
  const made = element('button', 'washboard-button', label);
  made.type = 'button';
  return made;
}

/** `10.5 to 30 Hz` */
const stretchText = ({ axis, from, to }: AxisRange): string =>
  `${plain(from, 4)} to ${plain(to, 4)} ${axis === 'time' ? 's' : 'Hz'}`;

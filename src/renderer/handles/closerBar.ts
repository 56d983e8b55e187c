import type { AxisRange } from '../../charts/making.ts';
import { element } from '../element.ts';
import { plain } from '../../values/number.ts';
import type { Menus } from './choices.ts';

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
  readonly #link = button();
  readonly #all = button();
  readonly #back = button('‹');
  readonly #on = button('›');
  readonly #said: Menus['said'];

  constructor(asks: BarAsks, said: Menus['said']) {
    this.#said = said;
    this.#all.addEventListener('click', () => asks.showAll());
    this.#back.addEventListener('click', () => asks.leaf(-1));
    this.#on.addEventListener('click', () => asks.leaf(1));
    this.#link.addEventListener('click', () => asks.link(this.#link.getAttribute('aria-pressed') !== 'true'));
    this.#says.setAttribute('role', 'status');
    this.element.setAttribute('role', 'toolbar');
    this.element.append(this.#back, this.#says, this.#on, this.#all, this.#link);
    this.element.hidden = true;
  }

  show(over: AxisRange | undefined, isLinked: boolean): void {
    this.element.hidden = over === undefined;
    // The reader's language may have come since it was made.
    const said = this.#said;
    this.element.setAttribute('aria-label', said('A closer look'));
    this.#all.textContent = said('Show All');
    this.#link.textContent = said('Link Charts');
    this.#link.title = said('Look at the same stretch in all charts over this axis');
    this.#link.setAttribute('aria-pressed', String(isLinked));
    const [back, on] = over?.axis === 'time' ? [said('Earlier'), said('Later')] : [said('Lower'), said('Higher')];
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

function button(label = ''): HTMLButtonElement {
  const made = element('button', 'washboard-button', label);
  made.type = 'button';
  return made;
}

/** `10.5 to 30 Hz` */
const stretchText = ({ axis, from, to }: AxisRange): string =>
  `${plain(from, 4)} to ${plain(to, 4)} ${axis === 'time' ? 's' : 'Hz'}`;

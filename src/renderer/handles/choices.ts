import type { AxisRange, Made, Making } from '../../charts/making.ts';
import { element } from '../element.ts';
import type { menuEntries, menuKey, MenuItem } from '../taking/menu.ts';
import type { said } from '../words.ts';

/** How menus are made on the page, and in which words: of what draws the outputs, which has it at hand. */
export interface Menus {
  readonly menuEntries: typeof menuEntries;
  readonly menuKey: typeof menuKey;
  readonly said: typeof said;
}

const labels: Readonly<Record<Made, string>> = {
  trim: 'Trim to this',
  band: 'Add this band',
  range: 'Keep this range',
  mark: 'Mark here',
};

/** What of a chart's makings a stretch, or a place alone, can become. @param set the one on whose plot it lies */
export function offered(
  makings: readonly Making[],
  axis: AxisRange['axis'],
  set: number,
  isPlace: boolean,
  make: (what: Made) => void,
): MenuItem[] {
  return makings
    .filter((one) => one.axis === axis && (one.sets === undefined || one.sets.includes(set)))
    .filter(({ what }) => !isPlace || what === 'mark')
    .map(({ what, where, locked }) => ({
      label: labels[what],
      note: locked ?? (where === '' ? 'in a new cell below' : where),
      isOff: locked !== undefined,
      run: () => {
        make(what);
        return undefined;
      },
    }));
}

/** The menu of what can be made of a stretch: one at a time, at the place where the stretch ends. */
export class Choices {
  readonly #menu = element('div', 'washboard-menu washboard-choices');
  readonly #closed: () => void;
  readonly #menus: Menus;

  /** @param around what it stands in @param closed is called when nothing was chosen */
  constructor(menus: Menus, around: HTMLElement, closed: () => void) {
    this.#menus = menus;
    this.#closed = closed;
    this.#menu.setAttribute('role', 'menu');
    this.#menu.hidden = true;
    around.append(this.#menu);
    this.#menu.addEventListener('keydown', (event) => {
      if (!menus.menuKey(event.key, this.#menu, () => this.#end())) return;
      event.preventDefault();
      event.stopPropagation();
    });
    this.#menu.addEventListener('focusout', ({ relatedTarget }) => {
      if (!(relatedTarget instanceof Node && this.#menu.contains(relatedTarget))) this.close();
    });
  }

  get isOpen(): boolean {
    return !this.#menu.hidden;
  }

  /** @param about the stretch in words @param at px from the left and top of what it stands in @param room px of its width */
  open(
    about: string,
    items: readonly MenuItem[],
    at: { readonly left: number; readonly top: number },
    room: number,
  ): void {
    const title = element('div', 'washboard-about', about);
    title.setAttribute('aria-hidden', 'true');
    this.#menu.setAttribute('aria-label', about);
    this.#menu.replaceChildren(title, ...this.#menus.menuEntries(items, () => this.#end()));
    this.#menu.hidden = false;
    const left = Math.max(0, Math.min(at.left, room - this.#menu.offsetWidth));
    Object.assign(this.#menu.style, { left: `${left}px`, right: 'auto', top: `${at.top}px` });
    this.#menu.querySelector<HTMLElement>('[role=menuitem]')?.focus({ preventScroll: true });
  }

  close(): void {
    this.#menu.hidden = true;
  }

  remove(): void {
    this.#menu.remove();
  }

  #end(): void {
    this.close();
    this.#closed();
  }
}

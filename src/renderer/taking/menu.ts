import { element } from '../element.ts';

/** An entry of a menu. */
export interface MenuItem {
  readonly label: string;
  /** Gives what is to be said of it afterwards, if anything. */
  run(): string | undefined | Promise<string | undefined>;
}

/** How long it is said what was done, in ms. */
const saidFor = 4000;

/** A button at the upper right of its place that opens a menu, by mouse and by keys. @param of what the menu is for */
export function menuButton(of: string, items: () => readonly MenuItem[]): HTMLElement {
  const button = element('button', 'washboard-more', '⋯');
  const menu = element('div', 'washboard-menu');
  const said = element('span', 'washboard-said');
  const place = element('div', 'washboard-taking', said, button, menu);
  button.type = 'button';
  button.setAttribute('aria-haspopup', 'menu');
  button.setAttribute('aria-label', `Save or copy: ${of}`);
  button.title = 'Save or copy';
  menu.setAttribute('role', 'menu');
  menu.setAttribute('aria-label', `Save or copy: ${of}`);
  said.setAttribute('role', 'status');
  const open = (isOpen: boolean): void => {
    menu.hidden = !isOpen;
    button.setAttribute('aria-expanded', String(isOpen));
    if (isOpen) menu.replaceChildren(...items().map((item) => entry(item, close, (text) => say(said, text))));
  };
  const close = (): void => {
    open(false);
    button.focus({ preventScroll: true });
  };
  open(false);
  button.addEventListener('click', () => {
    open(menu.hidden);
    (menu.firstElementChild as HTMLElement | null)?.focus({ preventScroll: true });
  });
  place.addEventListener('keydown', (event) => {
    if (!keyed(event, menu, button, close)) return;
    // The notebook would move to another cell.
    event.preventDefault();
    event.stopPropagation();
  });
  place.addEventListener('focusout', ({ relatedTarget }) => {
    if (!(relatedTarget instanceof Node && place.contains(relatedTarget))) open(false);
  });
  return place;
}

function entry(item: MenuItem, close: () => void, tell: (text: string) => void): HTMLElement {
  const made = element('button', 'washboard-entry', item.label);
  made.type = 'button';
  made.tabIndex = -1;
  made.setAttribute('role', 'menuitem');
  made.addEventListener('click', () => {
    // Before the menu is gone: copying a picture wants the user's own click.
    const done = item.run();
    close();
    void Promise.resolve(done).then((text) => {
      if (text !== undefined) tell(text);
    });
  });
  return made;
}

function say(place: HTMLElement, text: string): void {
  place.textContent = text;
  setTimeout(() => {
    if (place.textContent === text) place.textContent = '';
  }, saidFor);
}

/** Does what a key asks; tells whether it asked for anything. */
function keyed({ key }: KeyboardEvent, menu: HTMLElement, button: HTMLElement, close: () => void): boolean {
  if (menu.hidden) {
    if (key !== 'ArrowDown' && key !== 'ArrowUp') return key === 'Enter' || key === ' ' ? press(button) : false;
    return press(button);
  }
  const entries = [...menu.children] as HTMLElement[];
  const at = entries.indexOf(document.activeElement as HTMLElement);
  const to: Readonly<Record<string, number>> = {
    ArrowDown: (at + 1) % entries.length,
    ArrowUp: (at - 1 + entries.length) % entries.length,
    Home: 0,
    End: entries.length - 1,
  };
  if (Object.hasOwn(to, key)) entries[to[key]].focus({ preventScroll: true });
  else if (key === 'Escape') close();
  else if ((key === 'Enter' || key === ' ') && at >= 0) return press(entries[at]);
  else return false;
  return true;
}

function press(button: HTMLElement): true {
  button.click();
  return true;
}

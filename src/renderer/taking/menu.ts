import { element } from '../element.ts';
import { said as inWords } from '../words.ts';

/** An entry of a menu. */
export interface MenuItem {
  readonly label: string;
  /** What it is about, behind the label. */
  readonly note?: string;
  /** Whether it can't be chosen; the note says why. */
  readonly isOff?: boolean;
  /** Gives what is to be said of it afterwards, if anything. */
  run(): string | undefined | Promise<string | undefined>;
}

/** How long it is said what was done, in ms. */
const saidFor = 4000;

/** A button at the upper right of its output that opens a menu, by mouse and by keys. @param of what the menu is for */
export function menuButton(of: string, items: () => readonly MenuItem[]): HTMLElement {
  const button = element('button', 'washboard-more', '⋯');
  const menu = element('div', 'washboard-menu');
  const said = element('span', 'washboard-said');
  const control = element('div', 'washboard-taking', said, button, menu);
  button.type = 'button';
  button.setAttribute('aria-haspopup', 'menu');
  control.dataset['of'] = of;
  menu.setAttribute('role', 'menu');
  name(control);
  said.setAttribute('role', 'status');
  const open = (isOpen: boolean): void => {
    menu.hidden = !isOpen;
    button.setAttribute('aria-expanded', String(isOpen));
    if (isOpen) menu.replaceChildren(...menuEntries(items(), close, (text) => say(said, text)));
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
  control.addEventListener('keydown', (event) => {
    if (!keyed(event, menu, button, close)) return;
    // The notebook would move to another cell.
    event.preventDefault();
    event.stopPropagation();
  });
  control.addEventListener('focusout', ({ relatedTarget }) => {
    if (!(relatedTarget instanceof Node && control.contains(relatedTarget))) open(false);
  });
  return control;
}

/** Gives all such buttons on the page their names, in the reader's language. */
export const nameButtons = (): void => document.querySelectorAll<HTMLElement>('.washboard-taking').forEach(name);

function name(control: HTMLElement): void {
  const text = inWords('Save or copy: {0}', inWords(control.dataset['of'] ?? ''));
  for (const each of control.querySelectorAll<HTMLElement>('.washboard-more, .washboard-menu'))
    each.setAttribute('aria-label', text);
  control.querySelector<HTMLElement>('.washboard-more')!.title = inWords('Save or copy');
}

/** Entries of a menu that closes when one is chosen. @param tell is told what is to be said of it */
export const menuEntries = (
  items: readonly MenuItem[],
  close: () => void,
  tell: (text: string) => void = () => undefined,
): HTMLElement[] => items.map((item) => entry(item, close, tell));

function entry(item: MenuItem, close: () => void, tell: (text: string) => void): HTMLElement {
  const note = item.note === undefined ? [] : [' ', element('span', 'washboard-aside', inWords(item.note))];
  const made = element('button', 'washboard-entry', inWords(item.label), ...note);
  made.type = 'button';
  made.tabIndex = -1;
  made.setAttribute('role', 'menuitem');
  if (item.isOff === true) made.setAttribute('aria-disabled', 'true');
  made.addEventListener('click', () => {
    if (item.isOff === true) return;
    // Before the menu is gone: copying a picture wants the user's own click.
    const done = item.run();
    close();
    void Promise.resolve(done).then((text) => {
      if (text !== undefined) tell(text);
    });
  });
  return made;
}

function say(answer: HTMLElement, text: string): void {
  answer.textContent = text;
  setTimeout(() => {
    if (answer.textContent === text) answer.textContent = '';
  }, saidFor);
}

/** Does what a key asks; tells whether it asked for anything. */
function keyed({ key }: KeyboardEvent, menu: HTMLElement, button: HTMLElement, close: () => void): boolean {
  if (menu.hidden) {
    if (key !== 'ArrowDown' && key !== 'ArrowUp') return key === 'Enter' || key === ' ' ? press(button) : false;
    return press(button);
  }
  return menuKey(key, menu, close);
}

/** Moves in an open menu, chooses or closes it, as a key asks; tells whether it asked for anything. */
export function menuKey(key: string, menu: HTMLElement, close: () => void): boolean {
  const entries = [...menu.querySelectorAll<HTMLElement>('[role=menuitem]')];
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

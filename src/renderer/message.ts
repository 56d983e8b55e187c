import type { Message } from '../charts/output.ts';
import { unparted } from '../charts/words/names.ts';
import { capitalised, counted, listed } from '../result/words.ts';
import { element } from './element.ts';
import { linkElement } from './links.ts';

/** So many warnings and notes stand open; one of each sort before a second of any. */
const shownAtOnce = 3;

/** Errors and the first few of the others, each sort once; the rest behind one line that counts them. */
export function messageElements(messages: readonly Message[]): HTMLElement[] {
  const errors = messages.filter(({ severity }) => severity === 'error');
  const others = messages.filter(({ severity }) => severity !== 'error');
  const firsts = others.filter(({ code }, index) => others.findIndex((other) => other.code === code) === index);
  const shown =
    others.length <= shownAtOnce ? others : others.filter((message) => firsts.includes(message)).slice(0, shownAtOnce);
  const rest = others.filter((message) => !shown.includes(message));
  const open = [...errors, ...shown].map(messageElement);
  if (rest.length === 0) return open;
  const folded = element(
    'details',
    'washboard-folded',
    element('summary', '', countOf(rest)),
    ...rest.map(messageElement),
  );
  return [...open, folded];
}

/** `8 more warnings`, `2 more warnings and 1 more note`. */
function countOf(messages: readonly Message[]): string {
  const counts = (['warning', 'note'] as const).flatMap((severity) => {
    const count = messages.filter((message) => message.severity === severity).length;
    return count === 0 ? [] : [counted(count, `more ${severity}`)];
  });
  return listed(counts);
}

/** `Error  the sentence  cell 3, line 2  code`, of which the last two lead there and to the page about it. */
export function messageElement({ severity, code, message, where, at }: Message): HTMLElement {
  const placed = (text: string): HTMLElement =>
    at === undefined ? element('span', 'washboard-where', text) : linkElement(text, 'washboard-where', { at });
  const whereAt = where === undefined ? [] : [' ', placed(where)];
  return element(
    'p',
    `washboard-message washboard-${severity}`,
    element('strong', '', `${capitalised(severity)}: `),
    ...withCode(message),
    ...whereAt,
    ' ',
    linkElement(code, 'washboard-code', { code }),
  );
}

/** Words of the language stand between backticks in a message, and as code on the page. */
function withCode(text: string): (string | Node)[] {
  return unparted(text)
    .split(/`([^`]+)`/)
    .map((piece, index) => (index % 2 === 1 ? element('code', 'washboard-word', piece) : piece));
}

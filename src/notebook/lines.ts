/** One line of a file, with the line end that it has there: none only at the end of the file. */
export interface Line {
  readonly text: string;
  readonly eol: '\n' | '\r\n' | '\r' | '';
}

export type Eol = '\n' | '\r\n' | '\r';

/** Every line of `text`; joining `text + eol` of all gives `text` back. No line at all for the empty text. */
export function splitLines(text: string): Line[] {
  const lines: Line[] = [];
  const ends = /\r\n|\r|\n/g;
  let start = 0;
  for (let end = ends.exec(text); end; end = ends.exec(text)) {
    lines.push({ text: text.slice(start, end.index), eol: end[0] as Eol });
    start = ends.lastIndex;
  }
  if (start < text.length) lines.push({ text: text.slice(start), eol: '' });
  return lines;
}

export const joinLines = (lines: readonly Line[]): string => lines.map(({ text, eol }) => text + eol).join('');

/** `more` after whole lines; a lone carriage return must not become one line end with the line feed of a blank line. */
export const append = (text: string, more: string): string =>
  text + (text.endsWith('\r') && more.startsWith('\n') ? '\n' : '') + more;

/** All of `pieces` as by {@link append}, each looked at once. */
export function appendAll(pieces: readonly string[]): string {
  let end = '';
  const written = pieces.map((piece) => {
    const added = append(end, piece).slice(end.length);
    if (added !== '') end = added.slice(-1);
    return added;
  });
  return written.join('');
}

/** Text as an editor shows it: every line end a line feed. */
export const normalise = (text: string): string => text.replace(/\r\n?/g, '\n');

/** CommonMark's blank line: nothing but spaces and tabs. */
export const isBlank = (text: string): boolean => /^[ \t]*$/.test(text);

/** The line end that most lines have, the first one met among equals; a line feed when there is none. */
export function dominantEol(lines: readonly Line[]): Eol {
  const counts = new Map<Eol, number>();
  for (const { eol } of lines) if (eol) counts.set(eol, (counts.get(eol) ?? 0) + 1);
  let best: Eol = '\n';
  let most = 0;
  for (const [eol, count] of counts) if (count > most) [best, most] = [eol, count];
  return best;
}

/** Tabs as the spaces that CommonMark's four-column stops give them (spec 2.2). */
export function expandTabs(text: string): string {
  if (!text.includes('\t')) return text;
  let out = '';
  for (const piece of text.split(/(\t)/)) out += piece === '\t' ? ' '.repeat(4 - (out.length % 4)) : piece;
  return out;
}

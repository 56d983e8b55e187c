import { appendAll, splitLines, type Eol, type Line } from './lines.ts';

/** The lines of a raw body. Of an `ended` body every line ends; otherwise the last does not, and may be empty. */
export function bodyLines(body: string, ended: boolean): Line[] {
  const lines = splitLines(body);
  if (!ended && lines.length > 0 && lines[lines.length - 1].eol) lines.push({ text: '', eol: '' });
  return lines;
}

/**
 * The raw lines of a body after an edit: lines at its beginning and end that show the same as before stay as
 * the file has them, the rest are written with `indent` and `eol`.
 *
 * @param before the lines as the file has them
 * @param shown what the editor showed for each of them
 * @param text the new text, its lines joined by line feeds
 * @param ended whether the last line gets a line end
 */
export function editLines(
  before: readonly Line[],
  shown: readonly string[],
  text: string,
  style: { readonly indent: string; readonly eol: Eol; readonly ended: boolean },
): string {
  // Of no lines and of one empty line an editor shows the same, and no change is then the smaller one.
  if (text === shown.join('\n')) return ending(before, style);
  const after = text === '' ? [] : text.split('\n');
  const most = Math.min(shown.length, after.length);
  let first = 0;
  while (first < most && shown[first] === after[first]) first++;
  let last = 0;
  while (last < most - first && shown[shown.length - 1 - last] === after[after.length - 1 - last]) last++;
  const written = after.slice(first, after.length - last).map((line): Line => {
    return { text: line === '' ? '' : style.indent + line, eol: style.eol };
  });
  return ending([...before.slice(0, first), ...written, ...before.slice(before.length - last)], style);
}

/** Joins lines so that each but the last ends, and the last if it is to. */
function ending(lines: readonly Line[], { eol, ended }: { readonly eol: Eol; readonly ended: boolean }): string {
  const whole = lines.map((line, at) => line.text + (at < lines.length - 1 || ended ? line.eol || eol : ''));
  return appendAll(whole);
}

import { atStart, readLine } from './blocks.ts';

/** A number in prose that says what it is: `−21.5 %<!-- = bricks.change -->`. Offsets are those of the text. */
export interface ProseNumber {
  readonly from: number;
  readonly to: number;
  /** As written, with its sign: `−21.5`; empty where no number stands before the mark. */
  readonly text: string;
  /** What stands between number and mark, such as `%`; empty where nothing does. */
  readonly unit: string;
  /** In the language of the cells, on one line. */
  readonly expression: string;
  /** Where the mark begins and ends. */
  readonly mark: { readonly from: number; readonly to: number };
}

/** Comments that begin with an equals sign; no Markdown viewer shows them. */
function marksIn(text: string): { readonly from: number; readonly to: number; readonly expression: string }[] {
  const found = [];
  for (let from = text.indexOf('<!--'); from >= 0; from = text.indexOf('<!--', from + 4)) {
    const end = text.indexOf('-->', from + 4);
    if (end < 0) break;
    const inside = text.slice(from + 4, end).trim();
    if (inside.startsWith('=')) {
      found.push({ from, to: end + 3, expression: inside.slice(1).trim().replace(/\s+/g, ' ') });
      from = end - 1;
    }
  }
  return found;
}

/**
 * A number, what may be its unit, and marks of emphasis, up to the mark on the same line. A minus sign may be a hyphen, and is
 * none behind a digit or a letter, as in `10-50`.
 */
const before =
  /(?<number>(?:(?<![\p{L}\d])[+\-−])?(?<![\d.])\d+(?:\.\d+)?(?:[eE][+\-−]?\d+)?)(?:[ \u00a0\u202f]?(?<unit>[%°\p{L}][\p{L}\d%°·*/^²³⁰¹⁴-⁹⁻.-]*?))?[*_]{0,3}[ \u00a0]?$/u;

/** The marked numbers of a Markdown text, in order; what stands in code is an example and no number. */
export function proseNumbers(text: string): ProseNumber[] {
  const marks = marksIn(text);
  if (marks.length === 0) return [];
  const isCode = codeIn(text);
  return marks.flatMap(({ expression, ...mark }) => {
    if (isCode(mark.from)) return [];
    // No number is longer; a line may be.
    const line = text.slice(Math.max(0, mark.from - 100), mark.from).replace(/^[^]*[\r\n]/, '');
    const groups = before.exec(line);
    const number = groups?.groups?.['number'] ?? '';
    const from = groups === null ? mark.from : mark.from - line.length + groups.index;
    return [{ from, to: from + number.length, text: number, unit: groups?.groups?.['unit'] ?? '', expression, mark }];
  });
}

/** What tells numbers apart that are held against different results, or written otherwise. */
export const proseKey = ({ text, unit, expression }: ProseNumber): string => [text, unit, expression].join('|');

/** The text as a viewer shows it that knows nothing of these marks. */
export function withoutMarks(text: string): string {
  const cuts = proseNumbers(text).map(({ mark }) => mark);
  return cuts.reduceRight((rest, { from, to }) => rest.slice(0, from) + rest.slice(to), text);
}

/** The text with other numbers in the places of some. @param written by the number that it takes the place of */
export function withNumbers(
  text: string,
  written: readonly { readonly of: ProseNumber; readonly text: string }[],
): string {
  return [...written]
    .sort((a, b) => b.of.from - a.of.from)
    .reduce((rest, { of, text: number }) => rest.slice(0, of.from) + number + rest.slice(of.to), text);
}

/** Whether an offset lies in a fenced or indented block or between backticks; to be asked in rising order. */
function codeIn(text: string): (offset: number) => boolean {
  const spans: { from: number; to: number }[] = [];
  let state = atStart;
  let paragraph = { from: 0, to: 0 };
  const end = (): void => {
    spans.push(...codeSpans(text, paragraph.from, paragraph.to));
  };
  for (const { 0: line, index } of text.matchAll(/[^\r\n]*(?:\r\n|\r|\n|$)/g)) {
    const { state: next, role } = readLine(state, line.replace(/[\r\n]+$/, ''));
    state = next;
    const isBlock = role.kind !== 'other' || state.leaf.kind === 'code';
    if (isBlock) spans.push({ from: index, to: index + line.length });
    if (isBlock || line.trim() === '') {
      end();
      paragraph = { from: index + line.length, to: index + line.length };
    } else paragraph.to = index + line.length;
  }
  end();
  spans.sort((a, b) => a.from - b.from);
  let at = 0;
  return (offset) => {
    while (at < spans.length && spans[at].to <= offset) at++;
    return at < spans.length && spans[at].from <= offset;
  };
}

/** Between runs of backticks of one length (CommonMark 6.1). */
function codeSpans(text: string, from: number, to: number): { from: number; to: number }[] {
  const runs = [...text.slice(from, to).matchAll(/`+/g)];
  const ofLength = new Map<number, number[]>();
  runs.forEach(({ 0: run }, at) => {
    const known = ofLength.get(run.length);
    if (known) known.push(at);
    else ofLength.set(run.length, [at]);
  });
  const nextOf = new Map<number, number>();
  const spans: { from: number; to: number }[] = [];
  for (let at = 0; at < runs.length; at++) {
    const open = runs[at];
    const places = ofLength.get(open[0].length) ?? [];
    let next = nextOf.get(open[0].length) ?? 0;
    while (next < places.length && places[next] <= at) next++;
    nextOf.set(open[0].length, next);
    if (next === places.length) continue;
    at = places[next];
    spans.push({ from: from + open.index, to: from + runs[at].index + open[0].length });
  }
  return spans;
}

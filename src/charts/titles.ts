import { printWidth } from './advances.ts';
import type { ChartPart } from './output.ts';

const titleSize = 13;
const subtitleSize = 11;

/** The chart's specification with title and subtitle in the picture, broken to its width; for pictures that stand alone. */
export function withTitle({ title, subtitle, vega }: ChartPart, width: number, print = false): Record<string, unknown> {
  return {
    ...vega,
    title: {
      ...(vega['title'] as Record<string, unknown> | undefined),
      text: lines(title, width, titleSize, print),
      ...(subtitle === '' ? {} : { subtitle: lines(subtitle, width, subtitleSize, print) }),
      anchor: 'start',
      frame: 'bounds',
      color: { signal: 'role_ink' },
      subtitleColor: { signal: 'role_muted' },
      fontSize: titleSize,
      fontWeight: print ? 700 : 600,
      lineHeight: 17,
      subtitleFontSize: subtitleSize,
      subtitleLineHeight: 14,
      offset: 10,
    },
  };
}

/** By the widths of the font of figures in print, or near enough where the font is the reader's. */
const lines = (text: string, width: number, size: number, print: boolean): string[] =>
  print
    ? wrappedBy(text, (line) => printWidth(line, size, size === titleSize) <= width - 4)
    : wrapped(text, width / (size * (size === titleSize ? 0.58 : 0.56)));

/** Lines that each fit, broken at blanks. */
function wrappedBy(sentence: string, fits: (line: string) => boolean): string[] {
  const lines: string[] = [];
  for (const word of sentence.split(' ')) {
    const longer = `${lines.at(-1) ?? ''} ${word}`;
    if (lines.length > 0 && fits(longer)) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

/** Lines of at most so many characters, broken at blanks. */
export function wrapped(sentence: string, limit: number): string[] {
  const lines: string[] = [];
  for (const word of sentence.split(' ')) {
    const last = lines.length - 1;
    if (last >= 0 && lines[last].length + word.length < limit) lines[last] += ` ${word}`;
    else lines.push(word);
  }
  return lines;
}

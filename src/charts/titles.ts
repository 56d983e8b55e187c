import type { ChartPart } from './output.ts';

const titleSize = 13;
const subtitleSize = 11;

/** The chart's specification with title and subtitle in the picture, broken to its width; for pictures that stand alone. */
export function withTitle({ title, subtitle, vega }: ChartPart, width: number): Record<string, unknown> {
  return {
    ...vega,
    title: {
      ...(vega['title'] as Record<string, unknown> | undefined),
      text: wrapped(title, width / (titleSize * 0.58)),
      ...(subtitle === '' ? {} : { subtitle: wrapped(subtitle, width / (subtitleSize * 0.56)) }),
      anchor: 'start',
      frame: 'bounds',
      color: { signal: 'role_ink' },
      subtitleColor: { signal: 'role_muted' },
      fontSize: titleSize,
      fontWeight: 600,
      lineHeight: 17,
      subtitleFontSize: subtitleSize,
      subtitleLineHeight: 14,
      offset: 10,
    },
  };
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

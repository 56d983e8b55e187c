import { textMetrics } from 'vega-scenegraph';
import { printWidth } from '../charts/advances.ts';
import { printFont } from '../charts/printFont.ts';

/**
 * Widths of text without a browser. Vega's own guess (0.8 of the font size a character) leaves a third of a picture
 * empty; these are the widths of a common sans-serif face, in thousandths of the font size, a little on the wide side.
 */
const widths: readonly (readonly [letters: RegExp, width: number])[] = [
  [/[ijlI|.,:;'’!·]/u, 290],
  [/[ ftr()[\]/\-–¹²³]/u, 370],
  [/[mwMW%@—]/u, 900],
  [/[A-HJ-LN-VX-Z&]/u, 700],
  [/[★°]/u, 600],
];
const otherwise = 600;

export function textWidth(text: string, size: number): number {
  let sum = 0;
  for (const letter of text) sum += widths.find(([letters]) => letters.test(letter))?.[1] ?? otherwise;
  return (sum / 1000) * size;
}

/** Makes Vega use these widths, for there is no canvas that could measure. */
export function measureWithoutCanvas(): void {
  textMetrics.width = (item, text) => {
    const [written, size] = [text == null ? '' : `${text}`, item.fontSize ?? 11];
    const isPrint = item.font?.includes(printFont) === true;
    const width = isPrint ? printWidth(written, size, isBold(item.fontWeight)) : textWidth(written, size);
    // What is longer than its limit is drawn cut.
    return item.limit !== undefined && item.limit > 0 ? Math.min(width, item.limit) : width;
  };
}

const isBold = (weight: number | string | undefined): boolean => weight === 'bold' || Number(weight) >= 600;

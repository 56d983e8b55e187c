/**
 * Widths of letters on a screen, whose font nobody knows beforehand: those of a common sans-serif face in thousandths of
 * the font size, a little on the wide side. Vega's own guess without a browser (0.8 of the font size a character) leaves
 * a third of a picture empty.
 */
const widths: readonly (readonly [letters: RegExp, width: number])[] = [
  [/[ijlI|.,:;'’!·]/u, 290],
  [/[ ftr()[\]/\-–¹²³]/u, 370],
  [/[mwMW%@—]/u, 900],
  [/[A-HJ-LN-VX-Z&]/u, 700],
  [/[★°]/u, 600],
];
const otherwise = 600;

/** Width in px of a text on a screen, near enough to keep texts apart. */
export function screenWidth(text: string, size: number): number {
  let sum = 0;
  for (const letter of text) sum += widths.find(([letters]) => letters.test(letter))?.[1] ?? otherwise;
  return (sum / 1000) * size;
}

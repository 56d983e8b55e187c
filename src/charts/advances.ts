import { boldWidths, regularWidths, type Widths } from './fontWidths.ts';

const byLetter = (widths: Widths): ReadonlyMap<string, number> =>
  new Map(widths.flatMap(([width, letters]) => [...letters].map((letter): [string, number] => [letter, width / 2048])));

const faces = { regular: byLetter(regularWidths), bold: byLetter(boldWidths) };

/** Width in px of a text in the font of figures in print; a letter that it lacks counts as a wide one. */
export function printWidth(text: string, size: number, bold = false): number {
  const widths = bold ? faces.bold : faces.regular;
  let sum = 0;
  for (const letter of text) sum += widths.get(letter) ?? 1;
  return sum * size;
}

/** The letters of a text that the font lacks, each once. */
export const lackedLetters = (text: string): string[] => [
  ...new Set([...text].filter((letter) => !faces.regular.has(letter) && letter !== '\n')),
];

import type { Place } from './diagnostic.ts';
import type { Operand } from './tree.ts';

/** Two numbers that a decimal comma made of one: `2,5 Hz`. */
export interface CutNumber {
  readonly place: Place;
  readonly found: string;
  readonly instead: string;
}

/**
 * The number that two neighbours are the halves of: digits without a unit, a comma, and digits right behind it.
 * @param text that both stand in
 */
export function cutByComma(before: Operand, node: Operand | undefined, text: string): CutNumber | undefined {
  if (node?.type !== 'number' || before.type !== 'number' || before.unit) return undefined;
  if (node.place.from !== before.place.to + 1) return undefined;
  const place = { from: before.place.from, to: node.number.to };
  const found = text.slice(place.from, place.to);
  return { place, found, instead: found.replace(',', '.') };
}

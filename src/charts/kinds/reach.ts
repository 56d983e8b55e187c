import type { ComparisonValue } from '../../values/comparison.ts';
import type { ComparisonRow } from '../../values/comparisonParts.ts';
import { fittingsOf, reachText, type Fittings } from '../../values/fittings.ts';
import type { Part } from '../output.ts';

/** How far a comparison's intervals reach where refits are not told; of parts that were fitted once a warning tells it. */
export function reachPart(value: ComparisonValue): Part | undefined {
  const fittings = fittingsOf(value);
  return partOf(fittings && { ...fittings, once: [] });
}

/** How far the interval reaches that a verdict rests on, which stands apart from its comparison and its warnings. */
export const reachOfRow = (value: ComparisonValue, row: ComparisonRow): Part | undefined =>
  partOf(fittingsOf(value, row));

function partOf(fittings: Fittings | undefined): Part | undefined {
  const text = fittings === undefined ? '' : reachText(fittings);
  return text === '' ? undefined : { type: 'text', style: 'reach', text };
}

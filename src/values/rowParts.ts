import type { UncertaintyParts } from '../units/uncertainty.ts';
import type { ComparisonRow } from './comparisonParts.ts';
import type { Run } from './run.ts';

/**
 * What a figure of a comparison's row has of uncertainty: the scatter of the runs is its one input, the same for all that is
 * told of the row. Not a number where the runs allow no inference: the figure has an uncertainty, and nobody knows which.
 * @param slope of the figure over ln(B/A)
 */
export function rowParts(row: ComparisonRow, metric: string, runs: readonly Run[], slope: number): UncertaintyParts {
  const { channel, band, stratum = 'all', baseline, condition, methodCode, standardError = NaN, df = Infinity } = row;
  const made = digestOf(runs.map(({ file, start }) => `${file.sha256} ${start}`).join());
  const place = `${channel}, ${band.from} to ${band.to} Hz, ${stratum}`;
  const input = `change of ${metric}, ${place}, ${baseline} to ${condition} (${methodCode}, runs ${made})`;
  return [{ input, size: slope * standardError, df }];
}

/** Tells sets of runs apart: the hash FNV-1a of 32 bits. */
function digestOf(text: string): string {
  let hash = 0x811c9dc5;
  for (let k = 0; k < text.length; k++) hash = Math.imul(hash ^ text.charCodeAt(k), 0x01000193);
  return (hash >>> 0).toString(16);
}

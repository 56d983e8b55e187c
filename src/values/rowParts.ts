import type { UncertaintyParts } from '../units/uncertainty.ts';
import type { ComparisonRow } from './comparisonParts.ts';
import type { Run } from './run.ts';

/** The input that the sensitivity of a sensor's axis is, in levels and in changes alike. */
export const sensorInput = (sensor: string, axis: string): string => `sensitivity of ${sensor}, ${axis}`;

/**
 * What a figure of a comparison's row has of uncertainty: the scatter of the runs is one input, the same for all that is
 * told of the row; of sides that were recorded with different sensors, their sensitivities are others. Not a number where the runs allow no inference: the figure has an uncertainty, and nobody knows which.
 * @param slope of the figure over ln(B/A)
 */
export function rowParts(row: ComparisonRow, metric: string, runs: readonly Run[], slope: number): UncertaintyParts {
  const { channel, band, stratum = 'all', baseline, condition, methodCode, sensors = [] } = row;
  const { standardError = NaN, df = Infinity } = row;
  const made = digestOf(runs.map(({ file, start }) => `${file.sha256} ${start}`).join());
  const place = `${channel}, ${band.from} to ${band.to} Hz, ${stratum}`;
  const input = `change of ${metric}, ${place}, ${baseline} to ${condition} (${methodCode}, runs ${made})`;
  const all = standardError ** 2;
  const scatter = sensors.reduce((left, { size }) => left - size ** 2, all);
  return [
    // Degrees of freedom of the scatter alone, by Satterthwaite's rule backwards: the sensors add none of theirs.
    { input, size: slope * Math.sqrt(scatter), df: df * (scatter / all) ** 2 },
    ...sensors.map(({ sensor, axis, size }) => ({
      input: sensorInput(sensor, axis),
      size: slope * size,
      df: Infinity,
    })),
  ];
}

/** Tells sets of runs apart: the hash FNV-1a of 32 bits. */
function digestOf(text: string): string {
  let hash = 0x811c9dc5;
  for (let k = 0; k < text.length; k++) hash = Math.imul(hash ^ text.charCodeAt(k), 0x01000193);
  return (hash >>> 0).toString(16);
}

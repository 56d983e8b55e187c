import { bandMeanSquare } from '../../signal/band.ts';
import type { Pair } from '../../signal/transfer.ts';
import { welchDensity, type Density, type WelchOptions } from '../../signal/welch.ts';
import { studentTInterval } from '../../statistics/distributions/studentT.ts';
import { meanAndVariance } from '../../statistics/summary.ts';
import type { Band } from '../../values/band.ts';
import type { LoggersRow } from '../../values/loggers.ts';
import type { TransferEntry } from '../../values/transfer.ts';
import { scaleOf, type SharedChannel } from './loggerChannels.ts';
import { expOf } from '../../numbers/exponential.ts';
import { logOf } from '../../numbers/logarithm.ts';

/** Parts into which what both hold is cut for the scatter of the ratio, at most and at least. */
const mostParts = 20;
const fewestParts = 4;
/** Segments of a part. */
const segmentsInPart = 2;

/**
 * The figures of one channel in each band, B's in A's unit.
 * @param pairs A's samples and B's at the same moments
 * @param bands in Hz
 * @param confidence of the ratio's interval, 0 to 1
 */
export function loggerRows(
  channel: SharedChannel,
  pairs: readonly Pair[],
  response: TransferEntry,
  bands: readonly Band[],
  options: WelchOptions,
  confidence: number,
): LoggersRow[] {
  const { a } = channel;
  const scale = scaleOf(channel);
  const whole = densitiesOf(pairs, options);
  const parts = partsOf(pairs, segmentsInPart * options.shape.length).map((part) => densitiesOf([part], options));
  return bands.map(({ from, to }) => {
    const rms = ({ input, output }: Densities): [number, number] => [
      Math.sqrt(bandMeanSquare(input, from, to)),
      scale * Math.sqrt(bandMeanSquare(output, from, to)),
    ];
    const [inA, inB] = rms(whole);
    const logs = parts.map((part) => {
      const [x, y] = rms(part);
      return logOf(y / x);
    });
    const ratio = inB / inA;
    const scatter = scatterOf(logs, confidence);
    return {
      ...{ channel: a.name, unit: a.unit, from, to, a: inA, b: inB, ratio },
      error: scatter?.error,
      df: Math.max(0, logs.length - 1),
      low: scatter && ratio * expOf(-scatter.within),
      high: scatter && ratio * expOf(scatter.within),
      ...coherenceIn(response, whole.input, { from, to }),
    };
  });
}

interface Densities {
  readonly input: Density;
  readonly output: Density;
}

const densitiesOf = (pairs: readonly Pair[], options: WelchOptions): Densities => ({
  input: welchDensity(
    pairs.map(({ input }) => input),
    options,
  ),
  output: welchDensity(
    pairs.map(({ output }) => output),
    options,
  ),
});

/** Parts of about equal length, none shorter than said; none where these were too few. */
function partsOf(pairs: readonly Pair[], shortest: number): Pair[] {
  const whole = pairs.reduce((sum, { input }) => sum + input.length, 0);
  const length = Math.max(shortest, Math.floor(whole / mostParts));
  const parts = pairs.flatMap(({ input, output }) =>
    Array.from({ length: Math.floor(input.length / length) }, (_, k) => ({
      input: input.subarray(k * length, (k + 1) * length),
      output: output.subarray(k * length, (k + 1) * length),
    })),
  );
  return parts.length < fewestParts ? [] : parts;
}

/** Standard error of the mean of logarithms, and half the width of its interval by Student's t. */
function scatterOf(
  logs: readonly number[],
  confidence: number,
): { readonly error: number; readonly within: number } | undefined {
  if (logs.length < fewestParts || !logs.every(Number.isFinite)) return undefined;
  const { n, variance } = meanAndVariance(logs);
  const error = Math.sqrt(variance / n);
  return { error, within: error * studentTInterval(confidence, n - 1) };
}

/** The coherence weighted by A's mean square, and the least of the bins that lie within the band. */
function coherenceIn(
  { coherence, spacing }: TransferEntry,
  { density }: Density,
  { from, to }: Band,
): Pick<LoggersRow, 'coherence' | 'leastCoherence'> {
  let [sum, weights, least] = [0, 0, 1];
  for (let bin = Math.max(1, Math.ceil(from / spacing)); bin < coherence.length && bin * spacing <= to; bin++) {
    sum += coherence[bin] * density[bin];
    weights += density[bin];
    least = Math.min(least, coherence[bin]);
  }
  return { coherence: weights > 0 ? sum / weights : 0, leastCoherence: least };
}

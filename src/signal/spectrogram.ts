import { Cancelled } from './cancel.ts';
import { fft } from './fft.ts';
import { scratchArrays } from './scratch.ts';
import { hopOf, segmentCount, windowed, type WelchOptions } from './welch.ts';
import { sumOfSquares } from './windows.ts';

/** An unbroken stretch with the time of its first sample in s. */
export interface TimedStretch {
  readonly samples: Float64Array;
  readonly start: number;
}

/** Densities over time. Column c's bins are density[c * bins] … density[(c + 1) * bins - 1]. */
export interface Spectrogram {
  /** Time in s of the middle of each column. */
  readonly times: Float64Array;
  /** One-sided density in unit^2/Hz. */
  readonly density: Float64Array;
  readonly bins: number;
  /** Bin spacing in Hz. */
  readonly step: number;
  /** Segments averaged in a column; the last column of a stretch may hold fewer. */
  readonly perColumn: number;
}

/**
 * The one-sided density of each segment in turn, which `welchDensity` would average into one. Where there would be
 * more than `columns` of them, neighbouring segments are averaged, as few to a column as will do.
 *
 * @param stretches unbroken pieces of one signal; no segment reaches across two of them
 * @param options as of `welchDensity`; `columns` the most columns wanted, every segment its own where it is left out
 * @returns columns in the order of time, densities in unit^2/Hz
 * @throws RangeError when no stretch is as long as a segment; Cancelled when `cancelled` says so
 */
export function spectrogram(
  stretches: readonly TimedStretch[],
  options: WelchOptions & { readonly columns?: number },
): Spectrogram {
  const { shape, rate, overlap = 0.5, columns = Infinity, cancelled } = options;
  const length = shape.length;
  const hop = hopOf(length, overlap);
  const counts = stretches.map(({ samples }) => segmentCount(samples.length, length, hop));
  const total = counts.reduce((sum, count) => sum + count, 0);
  if (total === 0) throw new RangeError(`no stretch is as long as a segment of ${length} samples`);
  let perColumn = 1;
  const columnsAt = (per: number): number => counts.reduce((sum, count) => sum + Math.ceil(count / per), 0);
  while (columnsAt(perColumn) > Math.max(columns, stretches.length)) perColumn++;
  const bins = Math.floor(length / 2) + 1;
  const times = new Float64Array(columnsAt(perColumn));
  const density = new Float64Array(times.length * bins);
  const plan = fft(length);
  const [re, im, spareRe, spareIm] = scratchArrays(4, length);
  const scale = 1 / (rate * sumOfSquares(shape));
  let column = 0;
  stretches.forEach(({ samples, start }, s) => {
    for (let first = 0; first < counts[s]; first += perColumn, column++) {
      if (column % 64 === 0 && cancelled?.()) throw new Cancelled();
      const used = Math.min(perColumn, counts[s] - first);
      const into = density.subarray(column * bins, (column + 1) * bins);
      times[column] = start + (first * hop + ((used - 1) * hop + length) / 2) / rate;
      for (let segment = first; segment < first + used; segment += 2) {
        windowed(samples, segment * hop, shape, re);
        if (segment + 1 < first + used) windowed(samples, (segment + 1) * hop, shape, im);
        else im.fill(0);
        if (plan.forwardBetween(re, im, spareRe, spareIm)) addOneSided(spareRe, spareIm, scale / used, into);
        else addOneSided(re, im, scale / used, into);
      }
    }
  });
  return { times, density, bins, step: rate / length, perColumn };
}

/** The squared spectra of the two real segments in one complex transform, added up (see `WelchSum`). */
function addOneSided(re: Float64Array, im: Float64Array, scale: number, into: Float64Array): void {
  const length = re.length;
  into[0] += (re[0] ** 2 + im[0] ** 2) * scale;
  for (let k = 1; 2 * k < length; k++) {
    const l = length - k;
    into[k] += (re[k] * re[k] + im[k] * im[k] + re[l] * re[l] + im[l] * im[l]) * scale;
  }
  if (length % 2 === 0) into[length / 2] += (re[length / 2] ** 2 + im[length / 2] ** 2) * scale;
}

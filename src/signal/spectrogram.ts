import { Cancelled } from './cancel.ts';
import { Carry } from './carry.ts';
import { fft, type Fft } from './fft.ts';
import { scratchArrays } from './scratch.ts';
import { hopOf, segmentCount, type WelchOptions } from './welch.ts';
import { windowed } from './windowed.ts';
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

/** How the columns of a spectrogram are made. */
export type SpectrogramOptions = WelchOptions & { readonly columns?: number };

/**
 * The one-sided density of each segment in turn, which `welchDensity` would average into one. Where there would be
 * more than `columns` of them, neighbouring segments are averaged, as few to a column as will do.
 *
 * @param stretches unbroken pieces of one signal; no segment reaches across two of them
 * @param options as of `welchDensity`; `columns` the most columns wanted, every segment its own where it is left out
 * @returns columns in the order of time, densities in unit^2/Hz
 * @throws RangeError when no stretch is as long as a segment; Cancelled when `cancelled` says so
 */
export function spectrogram(stretches: readonly TimedStretch[], options: SpectrogramOptions): Spectrogram {
  const lengths = stretches.map(({ samples, start }) => ({ length: samples.length, start }));
  const columns = new SpectrogramColumns(lengths, options);
  for (const { samples } of stretches) {
    columns.add(samples);
    columns.end();
  }
  return columns.found;
}

/** Makes a spectrogram of stretches that come one after another, each block by block. */
export class SpectrogramColumns {
  readonly #options: SpectrogramOptions;
  readonly #starts: readonly number[];
  readonly #counts: readonly number[];
  readonly #hop: number;
  readonly #carry = new Carry();
  readonly #plan: Fft;
  readonly #work: readonly Float64Array[];
  readonly #scale: number;
  /** What has been found so far: its columns are filled one after another. */
  readonly found: Spectrogram;
  #column = 0;
  #stretch = 0;
  /** Segments of the stretch that are done. */
  #done = 0;

  /** @param stretches samples of each, and the time of the first in s */
  constructor(stretches: readonly { readonly length: number; readonly start: number }[], options: SpectrogramOptions) {
    const { shape, rate, overlap = 0.5, columns = Infinity } = options;
    const length = shape.length;
    const hop = hopOf(length, overlap);
    const counts = stretches.map((stretch) => segmentCount(stretch.length, length, hop));
    const total = counts.reduce((sum, count) => sum + count, 0);
    if (total === 0) throw new RangeError(`no stretch is as long as a segment of ${length} samples`);
    let perColumn = 1;
    const columnsAt = (per: number): number => counts.reduce((sum, count) => sum + Math.ceil(count / per), 0);
    while (columnsAt(perColumn) > Math.max(columns, stretches.length)) perColumn++;
    const bins = Math.floor(length / 2) + 1;
    const times = new Float64Array(columnsAt(perColumn));
    this.found = { times, density: new Float64Array(times.length * bins), bins, step: rate / length, perColumn };
    this.#options = options;
    this.#starts = stretches.map(({ start }) => start);
    this.#counts = counts;
    this.#hop = hop;
    this.#plan = fft(length);
    this.#work = scratchArrays(4, length);
    this.#scale = 1 / (rate * sumOfSquares(shape));
  }

  /** Adds the next samples of a stretch. */
  add(block: Float64Array): void {
    const { length } = this.#options.shape;
    const hop = this.#hop;
    const samples = this.#carry.add(block);
    const first = this.#done;
    for (const count = this.#counts[this.#stretch]; this.#done < count;) {
      const used = Math.min(this.found.perColumn, count - this.#done);
      const at = (this.#done - first) * hop;
      if (at + (used - 1) * hop + length > samples.length) break;
      this.#addColumn(samples, at, used);
      this.#done += used;
    }
    this.#carry.keep((this.#done - first) * hop);
  }

  /** Ends a stretch: what comes next is of the one after it. */
  end(): void {
    this.#carry.keep(this.#carry.held.length);
    this.#stretch++;
    this.#done = 0;
  }

  /** @param at index of the column's first sample  @param used segments that it has */
  #addColumn(samples: Float64Array, at: number, used: number): void {
    const { shape, rate, cancelled } = this.#options;
    const { times, density, bins } = this.found;
    const hop = this.#hop;
    const [re, im, spareRe, spareIm] = this.#work;
    const column = this.#column++;
    if (column % 64 === 0 && cancelled?.()) throw new Cancelled();
    const into = density.subarray(column * bins, (column + 1) * bins);
    times[column] = this.#starts[this.#stretch] + (this.#done * hop + ((used - 1) * hop + shape.length) / 2) / rate;
    for (let segment = 0; segment < used; segment += 2) {
      windowed(samples, at + segment * hop, shape, re);
      if (segment + 1 < used) windowed(samples, at + (segment + 1) * hop, shape, im);
      else im.fill(0);
      if (this.#plan.forwardBetween(re, im, spareRe, spareIm)) addOneSided(spareRe, spareIm, this.#scale / used, into);
      else addOneSided(re, im, this.#scale / used, into);
    }
  }
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

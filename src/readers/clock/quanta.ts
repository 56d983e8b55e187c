import { expOf } from '../../numbers/exponential.ts';
import { logOf } from '../../numbers/logarithm.ts';
import { settings } from '../settings.ts';

/** How many samples lie in each quantum of a piece of a recording in turn, and -1 where a gap leaves it open. */
export type Block = Int8Array;

/** The quanta in which samples lie, counted from the first stamp's, and how many lie in each. */
export interface Quanta {
  readonly at: readonly number[];
  readonly count: readonly number[];
}

/** Counts samples by quantum. @param t stamps in s that never run backwards @param quantum that they are whole numbers of */
export function quantaOf(t: Float64Array, quantum: number): Quanta {
  const [at, count]: [number[], number[]] = [[], []];
  for (const stamp of t) {
    const k = Math.round((stamp - t[0]) / quantum);
    if (at.at(-1) === k) count[count.length - 1]++;
    else [at[at.length], count[count.length]] = [k, 1];
  }
  return { at, count };
}

/** Pieces of so many quanta, a few spread over a recording; those that gaps take most of are left out. */
export function blocksOf({ at, count }: Quanta, length: number): Block[] {
  const all = at[at.length - 1] + 1;
  const many = Math.min(settings.occupancy.blocks, Math.floor(all / length));
  const starts = Array.from({ length: many }, (_, i) => Math.round((i * (all - length)) / Math.max(1, many - 1)));
  const blocks = starts.map((start) => blockFrom({ at, count }, start, length));
  return blocks.filter((block) => block.filter((samples) => samples >= 0).length > length / 2);
}

/** The piece of so many quanta from one on. Losses in longer runs are none at random: what lies in a gap says nothing. */
export function blockFrom({ at, count }: Quanta, start: number, length: number): Block {
  const block = new Int8Array(length).fill(-1);
  let i = indexFrom(at, start);
  let last = i > 0 ? at[i - 1] : start - 1;
  for (; i < at.length && at[i] < start + length; i++) {
    if (at[i] - last <= settings.occupancy.gap) block.fill(0, Math.max(0, last + 1 - start), at[i] - start);
    block[at[i] - start] = Math.min(count[i], 127);
    last = at[i];
  }
  return block;
}

function indexFrom(values: readonly number[], wanted: number): number {
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle] < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Bins of the circle of phases. */
const bins = 64;
/** Logarithms of chances are whole multiples of 1 over this, so that their sums are exact in whichever order. */
const fine = 2 ** 32;

/** What quanta of each phase would hold at a rate: the logarithms of the chances of each number of samples, bin by bin. */
export interface Expected {
  /** Samples a quantum. */
  readonly rate: number;
  readonly chances: readonly (readonly number[])[];
  /** Bins in turn of which the same is expected. */
  readonly runs: readonly BinRun[];
}

/** Bins `from` up to but without `to`. */
interface BinRun {
  readonly from: number;
  readonly to: number;
}

/**
 * The chances at a rate where a share of the samples is there. On a scale in samples a quantum reaches from its phase over the rate,
 * samples lie at whole numbers but for their unevenness, and those that are there are independent (a Poisson binomial).
 * @param rate samples a quantum
 */
export function expectedAt(rate: number, share: number): Expected {
  const levels = Math.floor(rate) + 3;
  const within = new Float64Array(levels);
  // By how many samples lie within for sure.
  const sure: (readonly number[])[] = [];
  const chances: (readonly number[])[] = [];
  const runs: { from: number; to: number }[] = [];
  for (let bin = 0; bin < bins; bin++) {
    const many = samplesWithin((bin + 0.5) / bins, rate, within);
    const own = (many === undefined ? undefined : sure[many]) ?? logChances(within, share);
    if (many !== undefined) sure[many] = own;
    if (bin > 0 && own === chances[bin - 1]) runs[runs.length - 1].to++;
    else runs.push({ from: bin, to: bin + 1 });
    chances.push(own);
  }
  return { rate, chances, runs };
}

/**
 * The chances of the samples around a quantum to lie in it, each uneven by up to a bin and so much more either way.
 * @param within takes them
 * @returns how many lie in it; undefined where that is not sure
 */
function samplesWithin(phase: number, rate: number, within: Float64Array): number | undefined {
  let [isSure, many] = [true, 0];
  for (let n = 0; n < within.length; n++) {
    const chance = below(phase + rate - n) - below(phase - n);
    isSure &&= chance === 0 || chance === 1;
    many += chance;
    within[n] = chance;
  }
  return isSure ? many : undefined;
}

const reach = 0.5 / bins + settings.occupancy.uneven;

/** The chance of a sample to lie below a bound that is so far above its place. */
const below = (place: number): number => Math.min(1, Math.max(0, 0.5 + place / (2 * reach)));

function logChances(within: Float64Array, share: number): number[] {
  const chances = new Float64Array(within.length);
  chances[0] = 1;
  for (const own of within) {
    const there = own * share;
    for (let n = chances.length - 1; n >= 0; n--) chances[n] = chances[n] * (1 - there) + (chances[n - 1] ?? 0) * there;
  }
  return Array.from(chances, (chance) => Math.round(fine * logOf(Math.max(chance, settings.occupancy.stray))) / fine);
}

/** How likely a piece is, as a logarithm, the phase in turns by which it is, and how likely such pieces are on average. */
export interface Phased {
  readonly score: number;
  readonly phase: number;
  readonly usual: () => number;
}

/** How likely a piece is at its likeliest phase: quantum k of it reaches from k·rate less that phase. */
export function likelihood(block: Block, { rate, chances, runs }: Expected): Phased {
  const counts = binned(block, rate, chances[0].length);
  const sums = new Float64Array(bins);
  for (const { from, to } of runs) {
    const before = scoresBefore(counts, chances[from]);
    for (let turn = 0; turn < bins; turn++) sums[turn] += before[to + turn] - before[from + turn];
  }
  let turn = 0;
  for (let other = 1; other < bins; other++) if (sums[other] > sums[turn]) turn = other;
  const score = sums[turn];
  const usual = (): number => {
    const levels = chances[0].length;
    const quantaAt = (bin: number): number =>
      counts.subarray(bin * levels, (bin + 1) * levels).reduce((a, b) => a + b, 0);
    return chances.reduce((sum, own, bin) => sum + quantaAt((bin + turn) & (bins - 1)) * averageOf(own), 0);
  };
  return { score, phase: turn / bins, usual };
}

/** Quanta by the bin of their phase and the samples that they hold, bin by bin. */
function binned(block: Block, rate: number, levels: number): Float64Array {
  const counts = new Float64Array(bins * levels);
  for (let k = 0; k < block.length; k++) {
    if (block[k] < 0) continue;
    const turns = k * rate;
    const bin = Math.floor((turns - Math.floor(turns)) * bins);
    counts[bin * levels + Math.min(block[k], levels - 1)]++;
  }
  return counts;
}

/** How likely at such chances is what all bins before each hold, twice around the circle; one place for all, as it is asked for so often. */
function scoresBefore(counts: Float64Array, chances: readonly number[]): Float64Array {
  const levels = chances.length;
  let sum = 0;
  for (let bin = 0; bin < bins; bin++) {
    for (let samples = 0; samples < levels; samples++) sum += counts[bin * levels + samples] * chances[samples];
    sumsBefore[bin + 1] = sum;
  }
  for (let bin = 1; bin <= bins; bin++) sumsBefore[bins + bin] = sum + sumsBefore[bin];
  return sumsBefore;
}

const sumsBefore = new Float64Array(2 * bins + 1);

/** What a quantum's score is on average where its samples are lost at random. @param chances as logarithms */
const averageOf = (chances: readonly number[]): number =>
  chances.reduce((sum, chance) => sum + expOf(chance) * chance, 0);

/** Samples and quanta of pieces, gaps left out. */
export function heldBy(blocks: readonly Block[]): { readonly samples: number; readonly quanta: number } {
  let [samples, quanta] = [0, 0];
  for (const block of blocks)
    for (const own of block) {
      if (own < 0) continue;
      samples += own;
      quanta++;
    }
  return { samples, quanta };
}

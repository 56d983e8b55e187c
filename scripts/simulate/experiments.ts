import { judge } from '../../src/statistics/claim.ts';
import { blockInterval } from '../../src/statistics/block.ts';
import { compare } from '../../src/statistics/compare.ts';
import { ratioInterval } from '../../src/statistics/estimate.ts';
import { equivalence } from '../../src/statistics/equivalence.ts';
import { estimateBy, type Method } from '../../src/statistics/methods.ts';
import { abbaOrder, placesOf } from '../../src/statistics/order.ts';
import { welchT } from '../../src/statistics/welchT.ts';
import type { Noise } from './noise.ts';
import type { RideLevels } from './pool.ts';

/** How the runs of an experiment are made. The rides' own scatter comes on top of `scatter`. */
export interface Setting {
  /** Runs of each condition. */
  readonly runs: number;
  /** Standard deviation of ln level from run to run. */
  readonly scatter: number;
  /** Drift of ln level a run; default 0. */
  readonly drift?: number;
  /** Standard deviation of ln level from one pair of runs to the next (weather, say); default 0. */
  readonly pairScatter?: number;
  /** Order of the runs; default ABBA BAAB. */
  readonly order?: 'ABBA' | 'AABB';
  /** Scatter with heavy tails: Student's t with 4 degrees of freedom instead of the normal. */
  readonly heavyTails?: boolean;
  /** True ratio B/A; default 1. */
  readonly ratio?: number;
}

/** The drawn runs of one experiment: factors on the levels of rides. */
interface Drawn {
  readonly a: readonly { readonly ride: RideLevels; readonly factor: number }[];
  readonly b: readonly { readonly ride: RideLevels; readonly factor: number }[];
  readonly places: { readonly a: readonly number[]; readonly b: readonly number[] };
}

export function draw(pool: readonly RideLevels[], setting: Setting, random: Noise): Drawn {
  const { runs, scatter, drift = 0, pairScatter = 0, order = 'ABBA', ratio = 1 } = setting;
  const places =
    order === 'ABBA'
      ? placesOf(abbaOrder(runs))
      : { a: Array.from({ length: runs }, (_, k) => k + 1), b: Array.from({ length: runs }, (_, k) => runs + k + 1) };
  const deviate = (): number => (setting.heavyTails ? heavyTailed(random) : random.gaussian());
  const ofPair = Array.from({ length: runs }, () => pairScatter * random.gaussian());
  const drawn = new Set<number>();
  const run = (place: number, pair: number, factor: number) => {
    let index = random.below(pool.length);
    while (drawn.has(index)) index = random.below(pool.length);
    drawn.add(index);
    return { ride: pool[index], factor: factor * Math.exp(scatter * deviate() + drift * place + ofPair[pair]) };
  };
  return {
    a: places.a.map((place, k) => run(place, k, 1)),
    b: places.b.map((place, k) => run(place, k, ratio)),
    places,
  };
}

/** Student's t with 4 degrees of freedom, scaled to a standard deviation of 1. */
function heavyTailed(random: Noise): number {
  let sum = 0;
  for (let k = 0; k < 4; k++) sum += random.gaussian() ** 2;
  return random.gaussian() / Math.sqrt(sum / 4) / Math.SQRT2;
}

/** Coverage of the 95 % interval in percent, and the median of its half-width in percent of the ratio. */
export interface Coverage {
  readonly percent: number;
  readonly halfWidth: number;
}

/** How often the interval of each method holds the true ratio. */
export function coverage(
  pool: readonly RideLevels[],
  setting: Setting,
  methods: readonly Method[],
  experiments: number,
  random: Noise,
): Partial<Record<Method, Coverage>> {
  const truth = Math.log(setting.ratio ?? 1);
  const held = new Map(methods.map((method) => [method, 0]));
  const widths = new Map(methods.map((method): [Method, number[]] => [method, []]));
  for (let k = 0; k < experiments; k++) {
    const { a, b, places } = draw(pool, setting, random);
    const logs = (side: Drawn['a']): number[] => side.map(({ ride, factor }) => Math.log(ride.primary * factor));
    const [yA, yB] = [logs(a), logs(b)];
    for (const method of methods) {
      const estimate = estimateBy(method, yA, yB, places);
      if (!estimate) throw new Error(`${method} gave no estimate`);
      const { low, high } = ratioInterval(estimate, 0.95);
      if (Math.log(low) <= truth && truth <= Math.log(high)) held.set(method, (held.get(method) ?? 0) + 1);
      widths.get(method)?.push(100 * Math.expm1(Math.log(high / low) / 2));
    }
  }
  return Object.fromEntries(
    methods.map((method) => [
      method,
      { percent: (100 * (held.get(method) ?? 0)) / experiments, halfWidth: median(widths.get(method) ?? []) },
    ]),
  );
}

/** How often a family of nine bands without any change shows one, in percent of the experiments. */
export function familyAlarms(
  pool: readonly RideLevels[],
  setting: Setting,
  experiments: number,
  random: Noise,
): { readonly uncorrected: number; readonly holm: number } {
  let [uncorrected, corrected] = [0, 0];
  for (let k = 0; k < experiments; k++) {
    const { a, b } = draw(pool, setting, random);
    // Half of the run-to-run variance is common to the bands of a run, half is each band's own.
    const own = (factor: number): number =>
      factor ** Math.SQRT1_2 * Math.exp(setting.scatter * Math.SQRT1_2 * random.gaussian());
    const levels = (side: Drawn['a'], band: number): number[] =>
      side.map(({ ride, factor }) => ride.family[band] * own(factor));
    const bands = a[0].ride.family.map((_, band) => ({ a: levels(a, band), b: levels(b, band) }));
    const { rows } = compare(bands, { sensitivity: false });
    if (rows.some(({ inference }) => inference && inference.p < 0.05)) uncorrected++;
    if (rows.some(({ outcome }) => outcome !== 'unclear')) corrected++;
  }
  return { uncorrected: (100 * uncorrected) / experiments, holm: (100 * corrected) / experiments };
}

/** How often a claim gets each verdict, in percent. */
export interface VerdictRates {
  readonly supported: number;
  readonly contradicted: number;
  readonly notShown: number;
}

/** Verdicts on "a reduction of at least `percent` %" when the true ratio is the setting's. */
export function verdictRates(
  pool: readonly RideLevels[],
  setting: Setting,
  percent: number,
  experiments: number,
  random: Noise,
): VerdictRates {
  const count = { supported: 0, contradicted: 0, 'not shown': 0 };
  for (let k = 0; k < experiments; k++) {
    const { a, b } = draw(pool, setting, random);
    const levels = (side: Drawn['a']): number[] => side.map(({ ride, factor }) => ride.primary * factor);
    const comparison = compare([{ a: levels(a), b: levels(b) }], { sensitivity: false });
    count[judge({ kind: 'at least', direction: 'reduction', percent }, comparison, 0).verdict]++;
  }
  const share = (n: number): number => (100 * n) / experiments;
  return {
    supported: share(count.supported),
    contradicted: share(count.contradicted),
    notShown: share(count['not shown']),
  };
}

/** How often two one-sided tests call A and B equivalent, in percent. */
export function equivalenceRate(
  pool: readonly RideLevels[],
  setting: Setting,
  margin: number,
  experiments: number,
  random: Noise,
): number {
  let equivalent = 0;
  for (let k = 0; k < experiments; k++) {
    const { a, b } = draw(pool, setting, random);
    const logs = (side: Drawn['a']): number[] => side.map(({ ride, factor }) => Math.log(ride.primary * factor));
    const estimate = welchT(logs(a), logs(b));
    if (estimate && equivalence(estimate, margin, 0.95).equivalent) equivalent++;
  }
  return (100 * equivalent) / experiments;
}

/** How often the block interval of one run each holds the true ratio of the conditions, in percent. */
export function oneRunCoverage(
  pool: readonly RideLevels[],
  scatter: number,
  experiments: number,
  random: Noise,
): number {
  let held = 0;
  for (let k = 0; k < experiments; k++) {
    const { a, b } = draw(pool, { runs: 1, scatter }, random);
    const blocks = (side: Drawn['a']): number[] => side[0].ride.blocks.map((q) => q * side[0].factor ** 2);
    const interval = blockInterval(blocks(a), blocks(b), 0.95);
    if (interval && interval.low <= 1 && 1 <= interval.high) held++;
  }
  return (100 * held) / experiments;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((x, y) => x - y);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

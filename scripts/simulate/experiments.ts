import { judge } from '../../src/statistics/claim.ts';
import type { Comparison } from '../../src/statistics/comparison.ts';
import { compare, type CompareOptions } from './compareTwo.ts';
import { densityRatio } from '../../src/statistics/densityRatio.ts';
import { interleavedOrder, placesOf } from '../../src/statistics/order.ts';
import type { Noise } from './noise.ts';
import type { RideLevels } from './pool.ts';

/** How the runs of an experiment are made, and what is known of them. */
export interface Setting {
  /** Runs of each condition. */
  readonly runs: number;
  /** Standard deviation of ln level from run to run, of A and of B. */
  readonly scatter: readonly [a: number, b: number];
  /** Drift of ln level a run; default 0. */
  readonly drift?: number;
  /** A hump of so much ln level over the whole test; default 0. */
  readonly hump?: number;
  /** Standard deviation of ln level from one pair of runs to the next (weather, say); default 0. */
  readonly pairScatter?: number;
  /** What the sheet tells of the runs; default their order. */
  readonly known?: 'nothing' | 'order' | 'pairs';
  /** Scatter with heavy tails: Student's t with 4 degrees of freedom instead of the normal. */
  readonly heavyTails?: boolean;
  /** True ratio B/A; default 1. */
  readonly ratio?: number;
}

/** The levels of bands whose scatter is common to them in so great a part, in an interleaved order; and the layout. */
function drawn(
  setting: Setting,
  { bands, common }: { readonly bands: number; readonly common: number },
  random: Noise,
  base: () => number = () => 1,
): { readonly levels: { a: number[]; b: number[] }[]; readonly layout: CompareOptions } {
  const { runs, scatter, drift = 0, hump = 0, pairScatter = 0, known = 'order', ratio = 1 } = setting;
  const order = placesOf(interleavedOrder(runs));
  const deviate = (): number => (setting.heavyTails ? heavyTailed(random) : random.gaussian());
  const ofPair = Array.from({ length: runs }, () => pairScatter * random.gaussian());
  const pairs = {
    a: order.a.map((place) => String(Math.ceil(place / 2))),
    b: order.b.map((place) => String(Math.ceil(place / 2))),
  };
  const levels = Array.from({ length: bands }, () => ({ a: [] as number[], b: [] as number[] }));
  for (const side of ['a', 'b'] as const) {
    for (const place of order[side]) {
      const shared = deviate();
      const along = (place - 0.5) / runs - 1;
      const mean = drift * place + hump * (1 - along ** 2) + ofPair[Math.ceil(place / 2) - 1];
      const level = base() * (side === 'b' ? ratio : 1) * Math.exp(mean);
      for (const band of levels) {
        const own = Math.sqrt(common) * shared + (common < 1 ? Math.sqrt(1 - common) * deviate() : 0);
        band[side].push(level * Math.exp(scatter[side === 'a' ? 0 : 1] * own));
      }
    }
  }
  const layout = known === 'nothing' ? {} : known === 'pairs' ? { order, pairs } : { order };
  return { levels, layout };
}

/** Student's t with 4 degrees of freedom, scaled to a standard deviation of 1. */
function heavyTailed(random: Noise): number {
  let sum = 0;
  for (let k = 0; k < 4; k++) sum += random.gaussian() ** 2;
  return random.gaussian() / Math.sqrt(sum / 4) / Math.SQRT2;
}

/** Coverage of the 95 % interval and how often a direction is shown, in percent; median half-width in percent of the ratio. */
export interface Coverage {
  readonly percent: number;
  readonly halfWidth: number;
  readonly shown: number;
}

/** How often the printed interval holds the true ratio. @param pool made-up rides whose levels are used; else all are 1 */
export function coverage(setting: Setting, experiments: number, random: Noise, pool?: readonly RideLevels[]): Coverage {
  const { ratio = 1 } = setting;
  let [held, shown] = [0, 0];
  const widths: number[] = [];
  const base = pool && (() => pool[random.below(pool.length)].primary);
  for (let k = 0; k < experiments; k++) {
    const { levels, layout } = drawn(setting, { bands: 1, common: 1 }, random, base);
    const [{ inference, outcome }] = compare(levels, layout).rows;
    if (inference === undefined) throw new Error('no inference');
    const { low, high } = inference.interval;
    if (low <= ratio && ratio <= high) held++;
    if (outcome !== 'not shown') shown++;
    widths.push(100 * Math.expm1(Math.log(high / low) / 2));
  }
  const share = (count: number): number => (100 * count) / experiments;
  return { percent: share(held), halfWidth: median(widths), shown: share(shown) };
}

/** Of families of bands whose true ratio is the setting's, in percent: a row whose interval misses it anywhere; and how often a row shows it. */
export function familyRates(
  setting: Setting,
  family: { readonly bands: number; readonly common: number },
  experiments: number,
  random: Noise,
): { readonly misses: number; readonly shown: number } {
  const { ratio = 1 } = setting;
  let [misses, shown] = [0, 0];
  for (let k = 0; k < experiments; k++) {
    const { levels, layout } = drawn(setting, family, random);
    const { rows } = compare(levels, layout);
    const holds = rows.every(({ inference }) => {
      if (inference === undefined) return false;
      return inference.interval.low <= ratio && ratio <= inference.interval.high;
    });
    if (!holds) misses++;
    shown += rows.filter(({ outcome }) => outcome !== 'not shown').length / rows.length;
  }
  return { misses: (100 * misses) / experiments, shown: (100 * shown) / experiments };
}

/** How often a claim gets each verdict, in percent. */
export interface VerdictRates {
  readonly supported: number;
  readonly contradicted: number;
  readonly notShown: number;
}

/** Verdicts on "a reduction of at least `percent` %" when the true ratio is the setting's. */
export function verdictRates(setting: Setting, percent: number, experiments: number, random: Noise): VerdictRates {
  const count = { supported: 0, contradicted: 0, 'not shown': 0 };
  for (let k = 0; k < experiments; k++) {
    const { levels, layout } = drawn(setting, { bands: 1, common: 1 }, random);
    count[verdictOn(compare(levels, layout), percent)]++;
  }
  const share = (n: number): number => (100 * n) / experiments;
  return {
    supported: share(count.supported),
    contradicted: share(count.contradicted),
    notShown: share(count['not shown']),
  };
}

function verdictOn({ rows: [row], confidence }: Comparison, percent: number): ReturnType<typeof judge>['verdict'] {
  const { ratio, spread, inference } = row;
  // What would settle a claim is not asked here, and takes its time: a spread of 0 has no answer.
  const judged = { ratio, spread: spread && 0, confidence, interval: inference?.interval, noInference: undefined };
  return judge({ kind: 'at least', direction: 'reduction', percent }, judged).verdict;
}

/** How often A and B are called the same within a margin, in percent: any of so many bands. */
export function equivalenceRate(
  setting: Setting,
  margin: number,
  options: { readonly bands: number; readonly confidence: number },
  experiments: number,
  random: Noise,
): number {
  let equivalent = 0;
  for (let k = 0; k < experiments; k++) {
    const { levels, layout } = drawn(setting, { bands: options.bands, common: 0.5 }, random);
    const { rows } = compare(levels, { ...layout, margin, confidence: options.confidence });
    if (rows.some(({ outcome }) => outcome === 'equivalent')) equivalent++;
  }
  return (100 * equivalent) / experiments;
}

/** How often the interval for all bins of a ratio of densities misses anywhere, in percent, and its median half-width in percent. */
export function densityMisses(
  { runs, bins, averages }: { readonly runs: number; readonly bins: number; readonly averages: number },
  experiments: number,
  random: Noise,
): { readonly misses: number; readonly halfWidth: number } {
  let misses = 0;
  const widths: number[] = [];
  const run = (): Float64Array => {
    const level = 0.06 * random.gaussian();
    return Float64Array.from({ length: bins }, () => {
      let sum = 0;
      for (let k = 0; k < averages; k++) sum += -Math.log(1 - random.uniform());
      return (sum / averages) * Math.exp(level);
    });
  };
  for (let k = 0; k < experiments; k++) {
    const [a, b] = [0, 1].map(() => Array.from({ length: runs }, run));
    const found = densityRatio(a, b, 0.95);
    if (found === undefined) throw new Error('no ratio');
    const { low, high } = found;
    if (low.some((value, bin) => value > 1 || high[bin] < 1)) misses++;
    const bin = bins >> 1;
    widths.push(100 * Math.expm1(Math.log(high[bin] / low[bin]) / 4));
  }
  return { misses: (100 * misses) / experiments, halfWidth: median(widths) };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((x, y) => x - y);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

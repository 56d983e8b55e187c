import { createHash } from 'node:crypto';
import { Engine } from '../../src/engine/engine.ts';
import type { Host } from '../../src/engine/host.ts';
import { interleavedOrder } from '../../src/statistics/order.ts';
import { williamsOrder } from '../../src/statistics/severalOrder.ts';
import type { ComparisonRow } from '../../src/values/comparisonParts.ts';
import type { Noise } from './noise.ts';

/** A study whose conditions do not differ, written out as recordings and a run sheet and compared by the language itself. */
export interface WrittenStudy {
  /** Standard deviation of ln level of each condition, the baseline first. */
  readonly scatter: readonly number[];
  /** Runs of each condition in every stratum; 1 stratum is none. */
  readonly runs: number;
  readonly strata: number;
  /** Bands of one comparison. */
  readonly bands: number;
  /** Drift of ln level a run. */
  readonly drift: number;
  /** The order of the runs by their conditions' letters, where the sides are unequal; `runs` says nothing then. */
  readonly order?: string;
  /** Whether the sheet leaves the order out; default no. */
  readonly isOrderUnknown?: boolean;
  /** ln level that the first run has over a test that is warm, and that fades by a factor of e every two runs; default 0. */
  readonly warmUp?: number;
  /** Refits of each condition of two, `runs` in each; their own scatter of ln level, and whether the sheet names them. */
  readonly refits?: { readonly each: number; readonly scatter: number; readonly areNamed: boolean };
  /** Strata that are days: they scatter by themselves, and in their change, and are asked for as strata or only named in the sheet. */
  readonly days?: { readonly scatter: number; readonly ofChange: number; readonly areStrata: boolean };
  /** A column of speeds: their scatter about 1 and how much faster the second condition ran, both of ln; levels go with them by the power 1, or one that scatters about it from study to study. */
  readonly speeds?: { readonly scatter: number; readonly apart: number; readonly ofPower: number };
  /** What else the comparison asks. */
  readonly asks?: string;
}

/** One run as it is made: its condition, and which refit of that. */
interface Made {
  readonly condition: number;
  readonly refit: number;
}

/** A third of the experiments of the other parts: each is written out, read and compared as a user's study is. */
export const writtenExperiments = (experiments: number): number => Math.ceil(experiments / 3);

/** The standard error, in points, of a percentage near 5 or 95 that so many experiments gave. */
export const errorOfPercentage = (experiments: number): string => (100 * Math.sqrt(0.0475 / experiments)).toFixed(1);

/** In percent, of the rows as `compare` gives them. */
export interface WrittenRates {
  /** How often the first change by itself is not shown where there is none: the coverage of its own interval. */
  readonly covered: number;
  /** How often any interval over all strata misses, and any within one; NaN where there is none. */
  readonly misses: number;
  readonly missesWithin: number;
  /** How often p of the first change's differences between strata is at most 5 %; NaN where there is none. */
  readonly differing: number;
  /** Median half-width of the first change's interval, as it holds with all others. */
  readonly halfWidth: number;
}

const rate = 200;
const seconds = 4;
/** Each recording holds so many lines whose levels are drawn apart, so that one study serves for several experiments. */
const lines = Array.from({ length: 12 }, (_, k) => 6 + 7 * k);
const letters = ['a', 'b', 'c', 'd'];

/** What the rows of `compare` hold where nothing differs. @param experiments at least so many are drawn */
export async function writtenRates(study: WrittenStudy, experiments: number, random: Noise): Promise<WrittenRates> {
  const perStudy = Math.floor(lines.length / study.bands);
  const count = { all: 0, covered: 0, misses: 0, within: 0, withWithin: 0, held: 0, differing: 0 };
  const widths: number[] = [];
  while (count.all < experiments) {
    for (const rows of await comparedOnce(study, perStudy, random)) {
      const [first] = rows;
      const within = rows.filter(({ stratum, lowPercent }) => stratum !== undefined && lowPercent !== undefined);
      count.all++;
      if ((first.p ?? NaN) > 0.05) count.covered++;
      if (rows.some((row) => row.stratum === undefined && isMissed(row))) count.misses++;
      if (first.interaction !== undefined) count.held++;
      if ((first.interaction?.p ?? NaN) <= 0.05) count.differing++;
      if (within.length > 0) count.withWithin++;
      if (within.some(isMissed)) count.within++;
      widths.push(50 * Math.log1p((first.highPercent ?? NaN) / 100) - 50 * Math.log1p((first.lowPercent ?? NaN) / 100));
    }
  }
  const share = (n: number): number => (100 * n) / count.all;
  return {
    covered: share(count.covered),
    misses: share(count.misses),
    missesWithin: count.withWithin === 0 ? NaN : share(count.within),
    differing: count.held === 0 ? NaN : (100 * count.differing) / count.held,
    halfWidth: 100 * Math.expm1(widths.sort((x, y) => x - y)[widths.length >> 1] / 100),
  };
}

const isMissed = ({ lowPercent, highPercent }: ComparisonRow): boolean =>
  lowPercent !== undefined && highPercent !== undefined && (lowPercent > 0 || highPercent < 0);

async function comparedOnce(study: WrittenStudy, comparisons: number, random: Noise): Promise<ComparisonRow[][]> {
  const names = letters.slice(0, study.scatter.length);
  const loads = names.map((name) => `${name} = load sheet "runs.csv" where condition ${name} unit g | spectrum\n`);
  const compared = Array.from({ length: comparisons }, (_, e) => {
    const bands = lines.slice(e * study.bands, (e + 1) * study.bands).map((line) => `${line - 2}..${line + 2} Hz`);
    const strata = study.days === undefined ? 'site' : study.days.areStrata ? 'day' : '';
    const within = study.strata > 1 && strata !== '' ? ` within ${strata}` : '';
    const asks = study.asks === undefined ? '' : ` ${study.asks}`;
    return `c${e} = compare a with ${names.slice(1).join(', ')}${within} over ${bands.join(', ')}${asks}\n`;
  });
  const watch = { cancelled: () => false, progress: () => undefined };
  const engine = new Engine(hostOf(filesOf(study, random)));
  const { results } = await engine.run({ cells: [[...loads, ...compared].join('')], wanted: 'all' }, watch);
  const failed = results.find(({ error }) => error !== null && error !== undefined);
  // Speeds that come out too far apart by chance are refused, and promise nothing.
  if (failed?.error?.code === 'adjust.apart') return [];
  if (failed !== undefined) throw new Error(failed.error?.message);
  return results.flatMap(({ value }) => (value?.kind === 'comparison' ? [[...value.rows]] : []));
}

/** The runs in their order; refits follow one another as runs do without them. */
function madeIn({ scatter, runs, order: given, refits }: WrittenStudy): Made[] {
  if (given !== undefined) return [...given].map((letter, refit) => ({ condition: letters.indexOf(letter), refit }));
  const two = (count: number): number[] => interleavedOrder(count).map((one) => (one === 'A' ? 0 : 1));
  if (refits !== undefined)
    return two(refits.each).flatMap((condition, refit) => Array.from({ length: runs }, () => ({ condition, refit })));
  const order = scatter.length === 2 ? two(runs) : williamsOrder(runs, scatter.length).map(Number);
  return order.map((condition, refit) => ({ condition, refit }));
}

/** The recordings and the run sheet of one study. */
function filesOf(study: WrittenStudy, random: Noise): Map<string, Buffer> {
  const { scatter, strata, drift, refits, days, speeds, warmUp = 0 } = study;
  const order = madeIn(study);
  const files = new Map<string, Buffer>();
  const sheet = [headersOf(study).join(',')];
  const drawn = (of: number): readonly number[] => lines.map(() => (of === 0 ? 0 : of * random.gaussian()));
  const fitted = new Map<number, readonly number[]>();
  const ofPower = drawn(speeds?.ofPower ?? 0);
  for (let site = 0; site < strata; site++) {
    const [byDay, ofChange] = [drawn(days?.scatter ?? 0), drawn(days?.ofChange ?? 0)];
    order.forEach(({ condition, refit }, k) => {
      const byRefit = fitted.get(refit) ?? drawn(refits?.scatter ?? 0);
      fitted.set(refit, byRefit);
      const speed = speeds ? speeds.scatter * random.gaussian() + (condition === 1 ? speeds.apart : 0) : 0;
      const wandered = drift * (k + 1) + warmUp * Math.exp(-k / 2) + speed;
      const ofStratum = (line: number): number =>
        days === undefined ? site / 2 : byDay[line] + (condition === 1 ? ofChange[line] : 0);
      const levels = lines.map(
        (_, line) =>
          0.1 *
          Math.exp(
            scatter[condition] * random.gaussian() + wandered + ofStratum(line) + byRefit[line] + ofPower[line] * speed,
          ),
      );
      const file = `${letters[condition]}-${site}-${k}.csv`;
      files.set(file, Buffer.from(recordingText(levels)));
      const place = days === undefined ? k + 1 : site * order.length + k + 1;
      const cells = { file, condition: letters[condition], site: `s${site}`, day: `d${site}`, order: String(place) };
      const others = { refit: String(refit), 'speed (m/s)': Math.exp(speed).toFixed(6) };
      sheet.push(
        headersOf(study)
          .map((header) => ({ ...cells, ...others })[header])
          .join(','),
      );
    });
  }
  return files.set('runs.csv', Buffer.from(sheet.join('\n') + '\n'));
}

type Header = 'file' | 'condition' | 'site' | 'day' | 'order' | 'refit' | 'speed (m/s)';

const headersOf = ({ days, isOrderUnknown = false, refits, speeds }: WrittenStudy): readonly Header[] => [
  'file',
  'condition',
  days === undefined ? 'site' : 'day',
  ...(isOrderUnknown ? [] : (['order'] as const)),
  ...(refits?.areNamed === true ? (['refit'] as const) : []),
  ...(speeds === undefined ? [] : (['speed (m/s)'] as const)),
];

/** sqrt 2 times the sine of each line, sample by sample; phases apart, so that the sum is no spike. */
const waves = lines.map((frequency, k) =>
  Float64Array.from(
    { length: rate * seconds },
    (_, n) => Math.SQRT2 * Math.sin((2 * Math.PI * frequency * n) / rate + k * k),
  ),
);

function recordingText(levels: readonly number[]): string {
  const rows = [`# sampling rate: ${rate} Hz`, 'z (g)'];
  for (let n = 0; n < rate * seconds; n++)
    rows.push(levels.reduce((sum, level, k) => sum + level * waves[k][n], 1).toFixed(6));
  return rows.join('\n') + '\n';
}

function hostOf(files: ReadonlyMap<string, Buffer>): Host {
  const hash = (bytes: string | Buffer): string => createHash('sha256').update(bytes).digest('hex');
  const bytesOf = (path: string): Buffer => files.get(path) ?? Buffer.alloc(0);
  return {
    digest: hash,
    files: {
      expand: (pattern) => Promise.resolve({ ok: true, value: [pattern] }),
      identify: (path) => Promise.resolve({ bytes: bytesOf(path).length, sha256: hash(bytesOf(path)) }),
      open: (path) =>
        Promise.resolve({
          path,
          size: bytesOf(path).length,
          read: (position, length) =>
            Promise.resolve(new Uint8Array(bytesOf(path).subarray(position, position + length))),
        }),
    },
  };
}

import { capitalised, counted, listed } from '../../result/words.ts';
import type { RunningEntry } from '../../values/running.ts';
import { percent, plain } from '../../values/number.ts';
import { crowdedShares, mostDrawn } from '../series.ts';
import { distinct } from './names.ts';

// What is said of levels: of runs, of bands, over time, beside published ranges.

/** How levels are told: in their unit, or in dB. */
export interface LevelWords {
  readonly unit: string;
  readonly write: (figure: number, digits?: number) => string;
}

const ofSet = (called: string | undefined): string => (called === undefined ? '' : ` of ${called}`);

/** Over the tables of levels. @param isOfSeveral whether the channels have several units */
export function levelsCaptions(called: string | undefined, isOfSeveral: boolean): { main: string; further: string } {
  const about = `${ofSet(called)}${isOfSeveral ? ", each in its channel's unit" : ''}`;
  return { main: `Levels${about}`, further: `Further levels${about}` };
}

export const levelsTitle = (quantity: string, sets: readonly string[]): string =>
  `${capitalised(quantity)} of each run: ${listed(distinct(sets))}`;

export interface LevelPoint {
  readonly run: string;
  readonly series: string;
  readonly rms: number;
}

/** The lowest and the highest run of each series. */
export function levelsDescription(
  quantity: string,
  scale: LevelWords,
  series: readonly string[],
  points: readonly LevelPoint[],
): string {
  const write = ({ rms, run }: LevelPoint): string => `${scale.write(rms, 3)} ${scale.unit} (${run})`;
  const sentences = series.map((name) => {
    const own = points.filter((point) => point.series === name).sort((a, b) => a.rms - b.rms);
    return `${name}: ${write(own[0])}${own.length === 1 ? '' : ` to ${write(own[own.length - 1])}`}.`;
  });
  return `${capitalised(quantity)} by run. ${sentences.join(' ')}`;
}

/** Over the table of bands. */
export const bandsCaption = (called: string | undefined, calibrations: readonly string[]): string =>
  `R.m.s. in bands${ofSet(called)}${calibrations.length === 0 ? '' : `, calibration ± ${listed(calibrations)} %`}`;

export const bandsTitle = (quantity: string, series: readonly string[]): string =>
  `${capitalised(quantity)} in bands: ${listed(series)}`;

/** Nothing is to be explained where every bar is of one run. */
export function bandsSubtitle(bars: readonly BandBar[]): string {
  const counts = bars.map(({ runs }) => runs.length);
  const crowds = distinct(counts.filter((count) => count > mostDrawn).map((count) => plain(count)));
  const [wide, narrow] = crowdedShares.map((share) => percent(share));
  return [
    ...(counts.some((count) => count > 1) ? ['Bar: geometric mean of the runs.'] : []),
    ...(counts.some((count) => count > 1 && count <= mostDrawn)
      ? ['Each dot is one run, in the order of the set.']
      : []),
    ...(crowds.length > 0
      ? [`Lines over bars of ${listed(crowds)} runs: the middle ${narrow} (thick) and ${wide} of them (thin).`]
      : []),
  ].join(' ');
}

/** At the pointer. @param share in percent */
export const middleOfRuns = (share: string, runs: number): string => `middle ${share} of ${counted(runs, 'run')}`;

export interface BandBar {
  readonly series: string;
  readonly band: string;
  /** Geometric mean over the runs. */
  readonly mean: number;
  readonly runs: readonly { readonly run: string; readonly rms: number }[];
}

export function bandsDescription(bars: readonly BandBar[], quantity: string, { unit, write }: LevelWords): string {
  const sentences = distinct(bars.map((bar) => bar.series)).map((series) => {
    const own = bars.filter((bar) => bar.series === series && bar.runs.length > 0);
    const shown = own.length <= 8 ? own : [...own].sort((a, b) => b.mean - a.mean).slice(0, 3);
    const figures = shown.map(({ band, mean, runs }) => {
      const lowest = runs.reduce((least, { rms }) => Math.min(least, rms), Infinity);
      const highest = runs.reduce((most, { rms }) => Math.max(most, rms), -Infinity);
      const spread = runs.length > 1 ? ` (runs ${write(lowest, 3)} to ${write(highest, 3)})` : '';
      return `${band} ${write(mean, 3)}${spread}`;
    });
    return `${series}${own.length > shown.length ? ', the three highest' : ''}: ${figures.join('; ')}.`;
  });
  return `${capitalised(quantity)} in ${unit} by band. ${sentences.join(' ')}`;
}

/** Of running levels. @param over the span of each, in s */
export const runningCaption = (called: string | undefined, over: number): string =>
  `Running r.m.s. over ${plain(over)} s${ofSet(called)}`;

export const runningTitle = (quantity: string, over: number, sets: readonly string[]): string =>
  `${capitalised(quantity)} over ${plain(over)} s: ${distinct(sets).join(', ')}`;

export const runningSubtitle = (over: number): string =>
  `Each value belongs to the ${plain(over)} s before it; the largest of each is marked.`;

export function runningDescription(
  quantity: string,
  { unit, write }: LevelWords,
  lines: readonly { readonly entry: RunningEntry; readonly series: string }[],
): string {
  const largest = lines.map(
    ({ entry, series }) => `${series}: largest ${write(entry.largest, 3)} ${unit} at ${plain(entry.largestAt, 4)} s.`,
  );
  return `${capitalised(quantity)} over time. ${largest.join(' ')}`;
}

/** Of published ranges. */
export const exposureCaption = 'Published ranges as context';
export const othersInTable = 'The table says the same of the other runs and channels.';

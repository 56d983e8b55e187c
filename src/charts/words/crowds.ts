import { capitalised, counted } from '../../result/words.ts';
import { percent } from '../../values/number.ts';
import { crowdedShares } from '../series.ts';
import type { LevelWords } from './levels.ts';

// What is said of more runs than are drawn one by one.

export interface CrowdWords {
  readonly series: string;
  readonly count: number;
  /** Of the runs, within which `low` and `high` hold. */
  readonly share: number;
  readonly low: number;
  readonly median: number;
  readonly high: number;
  readonly lowest: { readonly run: string; readonly level: number };
  readonly highest: { readonly run: string; readonly level: number };
}

const [wide, narrow] = crowdedShares.map((share) => percent(share));

/** Under the title. */
export const crowdSubtitle = `Of many runs: the curve is the median of those beside one another, the bands hold the middle ${narrow} and ${wide} of them; dots are the runs farthest out.`;

/** Of the axis along which they stand. */
export const runsInOrder = 'Run, in the order of the sets';
export const runsAsMade = 'Run, in the order in which they were made';

/** @param quantity what the runs have a level of */
export const crowdsDescription = (quantity: string, crowds: readonly CrowdWords[], scale: LevelWords): string =>
  [`${capitalised(quantity)} by run.`, ...crowds.map((crowd) => crowdSentence(crowd, scale))].join(' ');

function crowdSentence(crowd: CrowdWords, { unit, write }: LevelWords): string {
  const { series, count, share, low, median, high, lowest, highest } = crowd;
  const told = (level: number): string => write(level, 3);
  return `${series}: median of ${counted(count, 'run')} ${told(median)} ${unit}, the middle ${percent(share)} ${told(low)} to ${told(high)} ${unit}; lowest ${told(lowest.level)} ${unit} (${lowest.run}), highest ${told(highest.level)} ${unit} (${highest.run}).`;
}

interface Placed {
  readonly run: string;
  readonly place: number;
}

/** At the pointer. */
export const runsFromTo = (from: Placed, to: Placed): string =>
  from.place === to.place ? from.run : `${from.run} to ${to.run}`;

/** At the pointer. @param levels lowest, median and highest of the runs there */
export const crowdStripLine = (
  series: string,
  [low, median, high]: readonly number[],
  { unit, write }: LevelWords,
): string => `${series}: median ${write(median, 3)} ${unit}, ${write(low, 3)} to ${write(high, 3)}`;

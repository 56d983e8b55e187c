import type { Message, Warning } from '../../result/result.ts';
import { covariateSensitivity, type StudiedChange } from '../../statistics/covariate.ts';
import { extent, type Run } from '../../values/run.ts';
import { tell, type UnlikeCondition } from '../messages/evidence.ts';
import { guard } from '../messages/verdict.ts';
import { apartWarnings } from './apart.ts';
import { conditionsOf, type Condition } from './conditions.ts';
import { sensorWarnings } from './sensors.ts';
import type { Side, Sides } from './sides.ts';
import { expOf } from '../../numbers/exponential.ts';
import { logOf } from '../../numbers/logarithm.ts';

/** Thresholds beyond which two sides were not measured alike (engineering choices). */
const durationsDiffer = 0.1;
const ratesDiffer = 0.005;
const conditionsDiffer = 0.02;
/** Speeds so far apart are not compared at all. */
const speedsForbid = 0.1;

/** Powers of speed that vibration of vehicles was seen to grow with. */
const speedExponents = [0.5, 1, 1.5];

/** The change between two sides and what it is found from. */
export interface Studied extends StudiedChange {
  /** Of all runs in one band. */
  readonly levels: readonly number[];
  /** Columns of the run sheet that runs are compared within, or that are taken out; in lower case. */
  readonly taken: readonly string[];
}

/** What differs between two sides that should not. */
export interface Differences {
  readonly warnings: readonly Warning[];
  /** Reasons that forbid a verdict, as clauses. */
  readonly guards: readonly Message[];
}

/**
 * What differs between two sides that should not: lengths, rates, windows, the speeds, load and tyre
 * pressures that the run sheet gives of every run, and any other figure of it that tells the sides apart.
 *
 * @param study the comparison that they belong to: what it takes out is no difference, and its levels are to show what a
 *   difference of speed may do
 */
export function differences(sides: Sides, study: Studied): Differences {
  const { taken } = study;
  const conditions = conditionsOf(sides).filter(({ column }) => !taken.includes(column));
  const speeds = conditions.filter(({ isSpeed }) => isSpeed);
  const others = conditions.filter(({ isSpeed }) => !isSpeed);
  return {
    warnings: [
      ...unlikeRecordings(sides),
      ...sensorWarnings(sides),
      ...speeds.flatMap((one) => speedWarnings(sides, one, study)),
      ...others.flatMap((one) => conditionWarnings(sides, one)),
      ...apartWarnings(sides, [...taken, ...conditions.map(({ column }) => column)]),
    ],
    guards: speeds
      .filter(isTooFar)
      .map((one) => guard('guard.speeds', { column: one.column, changePercent: 100 * distance(one) })),
  };
}

const meanOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const runsOf = ({ tracks }: Side): Run[] => tracks.map(({ run }) => run);

function unlikeRecordings({ a, b }: Sides): Warning[] {
  const found: Warning[] = [];
  const names = { a: a.name, b: b.name };
  const [secondsA, secondsB] = [a, b].map((side) => meanOf(runsOf(side).map(extent)));
  if (Math.abs(secondsA / secondsB - 1) > durationsDiffer)
    found.push(tell('compare.durations', { ...names, secondsA, secondsB }));
  const [rateA, rateB] = [a, b].map((side) => meanOf(runsOf(side).map(({ rate }) => rate)));
  if (Math.abs(rateA / rateB - 1) > ratesDiffer) found.push(tell('compare.rates', { ...names, rateA, rateB }));
  const windows = [a, b].map(({ window: { shape, length } }) => ({ shape, length }));
  if (windows[0].shape !== windows[1].shape || windows[0].length !== windows[1].length)
    found.push(tell('compare.windows', { windows }));
  return found;
}

/** How far apart the means are, as a fraction of the baseline's. */
const distance = ({ a, b }: Condition): number => Math.abs(meanOf(b) / meanOf(a) - 1);
const isTooFar = (condition: Condition): boolean => distance(condition) > speedsForbid;

function factsOf({ a, b }: Sides, condition: Condition): UnlikeCondition {
  const [meanA, meanB] = [condition.a, condition.b].map(meanOf);
  return {
    a: a.name,
    b: b.name,
    column: condition.column,
    unit: condition.unit,
    meanA: meanA / condition.factor,
    meanB: meanB / condition.factor,
    changePercent: 100 * (meanB / meanA - 1),
  };
}

function conditionWarnings(sides: Sides, condition: Condition): Warning[] {
  if (distance(condition) <= conditionsDiffer) return [];
  const { column } = condition;
  const code = column === 'mass' || column === 'load' ? (`compare.${column}` as const) : 'compare.pressure';
  return [tell(code, factsOf(sides, condition))];
}

/** A condition of both sides' runs, and of others its mean, so that they stay as they are. */
function valuesOfAll({ a, b }: Condition, { runs, change }: Studied): number[] {
  const mean = expOf(meanOf([...a, ...b].map(logOf)));
  const [restA, restB] = [[...a], [...b]];
  return runs.map(
    ({ condition }) =>
      (condition === change.from ? restA.shift() : condition === change.to ? restB.shift() : mean) ?? mean,
  );
}

function speedWarnings(sides: Sides, speed: Condition, study: Studied): Warning[] {
  if (distance(speed) <= conditionsDiffer) return [];
  const rows = covariateSensitivity(study.levels, valuesOfAll(speed, study), study, speedExponents);
  const atEqualSpeed = rows.map(({ exponent, row }) => ({ exponent, changePercent: row.changePercent ?? 0 }));
  return [tell('compare.speeds', { ...factsOf(sides, speed), isTooFar: isTooFar(speed), atEqualSpeed })];
}

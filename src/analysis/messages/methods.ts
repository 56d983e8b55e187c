import { capitalised, counted, listed } from '../../result/words.ts';
import { formatNumber } from '../../units/format.ts';
import type { ExcludedRun } from '../../values/excluded.ts';
import type { PlanFollowed } from '../../values/plan.ts';
import type { WindowValue } from '../../values/window.ts';
import { statedPercentText } from '../percents.ts';
import { sensorsText, type SensorWords } from './comparison.ts';
import { strataText } from './methodsOfComparison.ts';

// What a paragraph on methods says: whole sentences, or nothing where there is nothing to say.

/** A column of the run sheet, and its cells that are not empty. */
export interface SheetColumn {
  readonly header: string;
  readonly cells: readonly string[];
}

const distinct = (texts: readonly string[]): string[] => [...new Set(texts)];
const number = (value: number): string => formatNumber(value, 6);

/** Equal ends are one figure. @param least, most in the unit @param unit empty for none */
function spanText(least: number, most: number, unit: string): string {
  const after = unit === '' ? '' : ` ${unit}`;
  return least === most ? `${number(least)}${after}` : `${number(least)} to ${number(most)}${after}`;
}

/** What was measured with. @param columns of the sheet that say so @param hasSheet whether there is a sheet at all */
export function instrumentsText(columns: readonly SheetColumn[], hasSheet: boolean): string {
  if (columns.length > 0)
    return `Instruments: ${columns.map(({ header, cells }) => `${header} ${listed(distinct(cells))}`).join('; ')}.`;
  return hasSheet
    ? 'The run sheet does not name the instrument (a column such as logger, sensor or mount would).'
    : 'There is no run sheet that would name the instrument.';
}

/** What is stated of the sensors' sensitivity. */
export interface CalibrationFacts {
  /** Each once. */
  readonly sensors: readonly SensorWords[];
  /** Whether changes were told, and whether any of them is between sides of different sensors. */
  readonly isCompared: boolean;
  readonly isBetweenSensors: boolean;
}

/** How well the sensitivity of the sensors is known, and where that matters; nothing where it is not stated. */
export function calibrationText({ sensors, isCompared, isBetweenSensors }: CalibrationFacts): string {
  if (sensors.length === 0) return '';
  const inChanges = isBetweenSensors
    ? ', widens the intervals of changes between runs of different sensors, and falls out of those of one sensor'
    : ', and falls out of the changes, whose sides were recorded with the same sensor';
  return `The standard uncertainty of the sensitivity of ${sensorsText(sensors)} is in absolute levels${isCompared ? inChanges : ''}.`;
}

/** A channel with its unit, and the axes that a resultant is of. */
export interface RecordedChannel {
  readonly name: string;
  readonly unit: string;
  readonly axes?: readonly string[] | undefined;
}

/** What was recorded. @param channels each once @param rates of the runs in Hz */
export function signalsText(channels: readonly RecordedChannel[], rates: readonly number[]): string {
  if (rates.length === 0) return '';
  const rounded = rates.map((rate) => Number(rate.toPrecision(4)));
  return `The recordings hold ${listed(channels.map(({ name, unit, axes = [] }) => (axes.length === 0 ? `${name} in ${unit}` : `the ${name} of ${listed(axes)} in ${unit} (mean squares of the axes added)`)))} at ${spanText(Math.min(...rounded), Math.max(...rounded), 'Hz')}.`;
}

/** A side with its number of runs; without a name where nothing is compared. */
export interface SideCount {
  readonly name: string;
  readonly runs: number;
}

/** The runs of each side, in the order of the sides, in a stratum. */
export interface StratumCount {
  readonly stratum: string;
  readonly runs: readonly number[];
}

/** How many runs. @param sides each once @param strata the same in each of several @param references runs of no condition @param dates cells of the sheet */
export function runsText(
  sides: readonly SideCount[],
  strata: readonly StratumCount[],
  references: number,
  dates: readonly string[],
): string {
  const days = distinct(dates.map((date) => date.slice(0, 10))).sort();
  const when =
    days.length === 0 ? '' : days.length === 1 ? ` on ${days[0]}` : ` from ${days[0]} to ${days[days.length - 1]}`;
  const counts = sides.map(({ name, runs }) => `${counted(runs, 'run')}${name === '' ? '' : ` of ${name}`}`);
  const beside = references === 0 ? [] : [counted(references, 'reference run')];
  const isOne = sides.reduce((sum, { runs }) => sum + runs, references) === 1;
  return `There ${isOne ? 'was' : 'were'} ${listed([...counts, ...beside])}${within(strata)}${strata.length > 0 && when !== '' ? ',' : ''}${when}.`;
}

function within(strata: readonly StratumCount[]): string {
  if (strata.length === 0) return '';
  const all = strata.flatMap(({ runs }) => runs);
  if (all.every((count) => count === all[0]))
    return `, ${all[0]} of each in each of ${strataText(strata.map(({ stratum }) => stratum))}`;
  return ` (${listed(strata.map(({ stratum, runs }) => `${stratum}: ${runs.join(' + ')}`))})`;
}

interface Circumstance {
  readonly name: string;
  readonly unit: string;
  readonly least: number;
  readonly most: number;
}

/** @param all figures of the sheet, each from its least to its most in the sheet's unit */
export const circumstancesText = (all: readonly Circumstance[]): string =>
  all.length === 0
    ? ''
    : `By the run sheet: ${all.map(({ name, unit, least, most }) => `${name} ${spanText(least, most, unit)}`).join(', ')}.`;

/** @param excluded runs that the sheet leaves out @param hasSheet whether there is a sheet @param taken whether they were taken in all the same */
export function exclusionsText(excluded: readonly ExcludedRun[], hasSheet: boolean, taken: boolean): string {
  if (excluded.length === 0) return hasSheet ? 'No run was left out.' : '';
  const runs = excluded.map(({ path, why }) => `${path} (${why === '' ? 'no reason given' : why})`);
  return taken ? `Taken in although the run sheet leaves it out: ${listed(runs)}.` : `Left out: ${listed(runs)}.`;
}

/** So many ways in which runs were processed are told. */
const waysTold = 3;

/** @param ways the steps of each way in which runs were processed; empty for none */
export function processingText(ways: readonly string[]): string {
  const steps = ways.filter((way) => way !== '');
  if (steps.length === 0) return 'The recordings were used whole and as they are.';
  const more = steps.length > waysTold ? `; and ${steps.length - waysTold} more, which differ in figures` : '';
  return `Processing of each run: ${steps.slice(0, waysTold).join('; or ')}${more}.`;
}

/** How a spectrum was taken. @param length of the window in s @param overlap 0 to below 1 @param segments of each run */
export function spectrumText({
  shape,
  length,
  overlap,
  segments,
}: Pick<WindowValue, 'shape' | 'length' | 'overlap'> & { readonly segments: readonly number[] }): string {
  const count =
    segments.length === 0 ? '' : `, ${spanText(Math.min(...segments), Math.max(...segments), 'segments a run')}`;
  return `Spectra were taken by averaging modified periodograms (Welch 1967): ${capitalised(shape)} window of ${number(length)} s, overlap ${statedPercentText(100 * overlap)}${count}.`;
}

/** How two loggers were held against each other. @param stretches whose delays told the clocks, and the channel they are of */
export const loggersText = ({ a, b, channel, stretches, confidence }: LoggersFacts): string =>
  `The loggers of ${a} and ${b} were held against each other on one spot: the delay of ${b} was found by cross-correlation of channel ${channel} in ${counted(stretches, 'stretch', 'stretches')}, its recording was read on the clock of ${a}, and what it reads more was taken as the ratio of the r.m.s. in bands (Student’s t over parts of the recordings; confidence ${statedPercentText(100 * confidence)}).`;

interface LoggersFacts {
  readonly a: string;
  readonly b: string;
  readonly channel: string;
  readonly stretches: number;
  readonly confidence: number;
}

/** How the results stand to a plan. */
export function planText(plan: PlanFollowed | undefined): string {
  if (plan === undefined) return '';
  const kept =
    plan.deviations.length === 0
      ? 'it was followed'
      : `${counted(plan.deviations.length, 'thing')} ${plan.deviations.length === 1 ? 'was' : 'were'} not as planned: ${listed(plan.deviations.map(({ message }) => message))}`;
  return `What was compared had been settled in a plan (SHA-256 ${plan.hash.slice(0, 12)}…); ${kept}.`;
}

/** @param version of this program */
export const softwareText = (version: string): string => `Computed with Washboard ${version}.`;

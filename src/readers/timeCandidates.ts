import { success, type Result } from '../result/result.ts';
import { stepCounts, stepShape } from './clock/steps.ts';
import { factsOf } from './columnFacts.ts';
import { copiesOf } from './copies.ts';
import { refuse } from './messages.ts';
import { readHeader } from './names.ts';
import type { NumberColumn, StampColumn, Table } from './table.ts';
import { isCounterName, isOtherQuantity, isStepName, timeName, timeScale } from './timeNames.ts';

/** A column that may be the time. */
export interface TimeCandidate {
  readonly index: number;
  readonly column: NumberColumn | StampColumn;
  /** Seconds of one unit, where it is stated. */
  readonly scale: number | undefined;
  readonly byName: boolean;
}

/** The column that the option names, by its header, with or without its unit, or its number. */
export function timeByOption(path: string, table: Table, name: string): Result<TimeCandidate> {
  const same = (text: string | undefined): boolean => text?.trim().toLowerCase() === name.trim().toLowerCase();
  const numbered = /^column\s?(\d+)$/i.exec(name.trim());
  const index = table.columns.findIndex(({ header }, i) =>
    header === undefined
      ? numbered !== null && Number(numbered[1]) === i + 1
      : same(header) || same(readHeader(header).name),
  );
  const column = index < 0 ? undefined : table.columns[index];
  if (column === undefined) {
    const columns = table.columns.map((one, i) => one.header ?? `column${i + 1}`);
    return refuse('no-time-column', { path, name, columns });
  }
  if (column.kind !== 'number' && column.kind !== 'stamp') return refuse('time-not-numbers', { path, name });
  const scale = column.kind === 'number' ? statedScale(column) : 1;
  return success({ index, column, scale, byName: true });
}

function statedScale(column: NumberColumn): number | undefined {
  const reading = column.header === undefined ? undefined : readHeader(column.header, column.unitBelow);
  if (!reading) return column.unitBelow === undefined ? undefined : timeScale(column.unitBelow.replace(/[()[\]]/g, ''));
  const fromUnit = reading.unitText === undefined ? undefined : timeScale(reading.unitText);
  return fromUnit ?? timeName(reading.name)?.scale;
}

/**
 * The columns that may be the time, by their names, or by their numbers where none is named so.
 * @param rated whether a rate is stated, so that no column with another name has to be the time
 */
export function timeCandidates(table: Table, counter: number | undefined, rated: boolean): TimeCandidate[] {
  const named: TimeCandidate[] = [];
  const unnamed: TimeCandidate[] = [];
  const steps: TimeCandidate[] = [];
  for (const [index, column] of table.columns.entries()) {
    if (index === counter) continue;
    if (column.kind === 'stamp' && column.clock) named.push({ index, column, scale: 1, byName: true });
    if (column.kind !== 'number') continue;
    const reading = column.header === undefined ? undefined : readHeader(column.header, column.unitBelow);
    const unitIsTime =
      reading?.unitText !== undefined &&
      timeScale(reading.unitText) !== undefined &&
      !reading.axis &&
      !isOtherQuantity(reading.name.split(/[^\p{L}]+/u)[0]);
    // A unit of something else shows that a `T` is a temperature.
    const otherUnit =
      reading?.unitText !== undefined &&
      !unitIsTime &&
      !/utc|gmt|epoch|unix|posix|local|date|hh|:/i.test(reading.unitText);
    if (reading && isStepName(reading.name) && !otherUnit && column.values.every((step) => step >= 0)) {
      steps.push({ index, column: summed(column), scale: statedScale(column), byName: true });
    } else if (reading && ((timeName(reading.name) && !otherUnit && !isBareT(column.header)) || unitIsTime))
      named.push({ index, column, scale: statedScale(column), byName: true });
    else if (!(rated && reading) && !reading?.axis && !isNoTime(reading?.name) && looksLikeTime(column.values)) {
      unnamed.push({ index, column, scale: statedScale(column), byName: false });
    }
  }
  if (named.some(({ column }) => runsForward(column))) return named;
  return [...named, ...(steps.length > 0 ? steps : unnamed).slice(0, 1)];
}

/** A lone capital T without a unit is as often a temperature: it must then look like a time as well. */
const isBareT = (header: string | undefined): boolean => header?.trim() === 'T';

/** Names of what rises evenly and is no time: a count of rows, or the way along a route. */
const isNoTime = (name: string | undefined): boolean =>
  name !== undefined &&
  (isCounterName(name) ||
    /dist|weg|strecke|position|\b(pos|lat|lon|lng|alt)|breite|l[aä]nge|length|odo|angle|winkel|phase|heading|speed|load|force|temp|volt|batt|rev/i.test(
      name,
    ));

/** Times since the row before, summed up. */
function summed(column: NumberColumn): NumberColumn {
  let time = 0;
  return { ...column, values: column.values.map((step, i) => (i === 0 ? 0 : (time += step))) };
}

/** Whether a column goes forward for the most part, at least without what was sent again. */
export function runsForward({ values }: NumberColumn | StampColumn): boolean {
  if (goesForward(values)) return true;
  const fresh = withoutSentAgain(values);
  return fresh.length < values.length && goesForward(fresh);
}

/** Fewest stamps, and least share of the rows, that are new among what may be rows sent again. */
const fewestNew = { stamps: 3, share: 0.05 };

/**
 * The stamps less those that come again behind later ones; all of them where that is nothing, or where so few are new that
 * they are no rows sent again but numbers that come by the same values.
 */
export function withoutSentAgain(values: Float64Array): Float64Array {
  if (stepCounts(values).backward === 0) return values;
  const known = copiesOf([values]);
  let [latest, stamps] = [-Infinity, 0];
  const fresh = values.filter((value, i) => {
    stamps += 1 - known[i];
    latest = Math.max(latest, value);
    return value === latest || known[i] === 0;
  });
  return stamps < Math.max(fewestNew.stamps, fewestNew.share * values.length) ? values : fresh;
}

function goesForward(values: Float64Array): boolean {
  return forwardShare(values) > 0.5 && getsOn(values);
}

/** Whether steps forward outweigh steps back of their size; clocks that begin anew step back much farther. */
function getsOn(values: Float64Array): boolean {
  const { leastStep, mostStep } = factsOf(values);
  if (leastStep >= 0) return mostStep > 0;
  const { forwardMedian: usual } = stepShape(values);
  let forward = 0;
  let backward = 0;
  for (let i = 1; i < values.length; i++) {
    const step = values[i] - values[i - 1];
    if (step > 0) forward += step;
    else if (step > -20 * usual) backward -= step;
  }
  return backward < 0.8 * forward;
}

/** Share of the steps that are not backward, of those that move. */
function forwardShare(values: Float64Array): number {
  const { forward, backward } = stepCounts(values);
  return forward / Math.max(forward + backward, 1);
}

/** Whether numbers without a telling name rise by steps that are nearly alike, as no reading of a sensor does. */
function looksLikeTime(values: Float64Array): boolean {
  if (values.length < 3 || forwardShare(values) < 0.95) return false;
  const { forwardMedian } = stepShape(values);
  let near = 0;
  for (let i = 1; i < values.length; i++) {
    const step = values[i] - values[i - 1];
    if (step > 0.2 * forwardMedian && step < 5 * forwardMedian) near++;
  }
  return near >= 0.6 * (values.length - 1) && values[values.length - 1] - values[0] > 0.5 * near * forwardMedian;
}

import { settings } from '../settings.ts';
import { logOf } from '../../numbers/logarithm.ts';

/** A reading of a column of numbers as time. */
export interface TimeScale {
  /** Seconds that 1 in the column stands for. */
  readonly scale: number;
  readonly style: string;
}

const names: readonly (readonly [number, string])[] = [
  [1, 's'],
  [1e-3, 'ms'],
  [1e-6, 'us'],
  [1e-9, 'ns'],
];

/** Seconds from 1970 to day 0 of a spreadsheet, the 30th of December 1899. */
export const spreadsheetEpoch = -25_569 * 86_400;

/** Whether a number is a spreadsheet's day between 1982 and 2064. */
const isSpreadsheetDay = (days: number): boolean => days > 30_000 && days < 60_000;

/** The name of a unit of so many seconds. */
export const scaleName = (scale: number): string => names.find(([size]) => size === scale)?.[1] ?? `${scale} s`;

/** Whether seconds from 1970 fall between 2000 and 2100. */
export const isEpoch = (seconds: number): boolean => seconds > 946_684_800 && seconds < 4_102_444_800;

/** How a column's numbers are a time: seconds of a clock from 1970, or of any other. */
export const styleOf = (scale: number, first: number): string =>
  isEpoch(first * scale) ? `epoch ${scaleName(scale)}` : scaleName(scale);

/** A clock as a spreadsheet keeps it, in parts of a day: a rate that nothing else could be. */
function partOfDay(first: number, step: number, isInteger: boolean, rate?: number): TimeScale[] {
  const hertz = 1 / (step * 86_400);
  const { low, high } = settings.plausibleRate;
  const fits = rate === undefined ? hertz >= low && hertz <= high : Math.abs(logOf(hertz / rate)) < logOf(3);
  return isInteger || !fits || first < 0 || first > 2 ? [] : [{ scale: 86_400, style: 'part of a day' }];
}

/**
 * The scales that a column of numbers without a unit could be in: those that give a rate at which vibration is sampled,
 * or that make its first number a date of this century. Of these a recording that would be far too long is
 * passed over where another is not. With a rate stated, the scale that comes nearest to it.
 * @param span from the first number to the last
 */
export function possibleScales(
  first: number,
  step: number,
  span: number,
  isInteger: boolean,
  rate: number | undefined,
): TimeScale[] {
  const all: TimeScale[] = names.map(([scale]) => ({ scale, style: styleOf(scale, first) }));
  if (isSpreadsheetDay(first) && !isInteger) all.push({ scale: 86_400, style: 'days' });
  if (rate !== undefined) {
    const far = ({ scale }: TimeScale): number => Math.abs(logOf(1 / (step * scale) / rate));
    const [nearest] = all.sort((a, b) => far(a) - far(b));
    return far(nearest) < logOf(3) ? [nearest] : partOfDay(first, step, isInteger, rate);
  }
  const { low, high } = settings.plausibleRate;
  const plausible = all.filter(({ scale }) => 1 / (step * scale) <= high && 1 / (step * scale) >= low);
  if (plausible.length === 0) return partOfDay(first, step, isInteger);
  const dated = plausible.filter(({ style }) => style.startsWith('epoch') || style === 'days');
  if (dated.length === 1) return dated;
  const believed = plausible.filter(({ scale }) => span * scale <= settings.plausibleLength);
  return believed.length > 0 ? believed : plausible;
}

/** The other unit whose rate comes nearest to those that vibration is sampled at: what a column might be instead. */
export function otherScale(step: number, scale: number): number {
  const { low, high } = settings.plausibleRate;
  const middle = Math.sqrt(low * high);
  const far = (size: number): number => Math.abs(logOf(1 / (step * size) / middle));
  const others = names.map(([size]) => size).filter((size) => size !== scale);
  return others.reduce((best, size) => (far(size) < far(best) ? size : best));
}

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

/** Units that a stopwatch or a spreadsheet keeps the time in, and no header says so. */
const longer: readonly (readonly [number, string])[] = [
  [60, 'min'],
  [3600, 'h'],
  [86_400, 'days'],
];

/** Seconds from 1970 to day 0 of a spreadsheet, the 30th of December 1899. */
export const spreadsheetEpoch = -25_569 * 86_400;

/** Whether a number is a spreadsheet's day between 1982 and 2064. */
const isSpreadsheetDay = (days: number): boolean => days > 30_000 && days < 60_000;

/** The name of a unit of so many seconds. */
export const scaleName = (scale: number): string =>
  [...names, ...longer].find(([size]) => size === scale)?.[1] ?? `${scale} s`;

/** Whether seconds from 1970 fall between 2000 and 2100. */
export const isEpoch = (seconds: number): boolean => seconds > 946_684_800 && seconds < 4_102_444_800;

/** How a column's numbers are a time: seconds of a clock from 1970, or of any other. */
export const styleOf = (scale: number, first: number): string =>
  isEpoch(first * scale) ? `epoch ${scaleName(scale)}` : scaleName(scale);

const hertzOf = (step: number, scale: number): number => 1 / (step * scale);

/** How far a rate is from those that vibration is sampled at. */
function farFrom(rate: number): number {
  const { low, high } = settings.plausibleRate;
  return Math.abs(logOf(rate / Math.sqrt(low * high)));
}

const isPlausible = (rate: number): boolean =>
  rate >= settings.plausibleRate.low && rate <= settings.plausibleRate.high;

/**
 * The scales of numbers that are too fine for seconds: parts of a day, as a spreadsheet keeps a clock, and of a column
 * that is named a time minutes and hours, too, of which the likeliest is taken. At a rate that a fast converter has, seconds
 * stay as likely as minutes.
 */
function coarserScales(first: number, step: number, span: number, byName: boolean): TimeScale[] {
  const inSeconds = hertzOf(step, 1);
  const isClock = first > settings.ofDay * span;
  const fitting = longer.filter(
    ([scale]) =>
      isPlausible(hertzOf(step, scale)) && (scale === 86_400 ? first >= 0 && first <= 2 : byName && !isClock),
  );
  if (!(inSeconds > settings.plausibleRate.high) || fitting.length === 0) return [];
  const readings = fitting
    .map(([scale]) => scale)
    .sort((a, b) => farFrom(hertzOf(step, a)) - farFrom(hertzOf(step, b)));
  const isFast = byName && !isClock && inSeconds <= settings.fastConverter;
  return (isFast ? [1, 60] : readings.slice(0, 1)).map(longerScale);
}

const longerScale = (scale: number): TimeScale => ({
  scale,
  style: scale === 86_400 ? 'part of a day' : scaleName(scale),
});

/**
 * The scales that a column of numbers without a unit could be in: those that give a rate at which vibration is sampled,
 * or that make its first number a date of this century. Of these a recording that would be far too long is
 * passed over where another is not. With a rate stated, the scale that comes nearest to it.
 * @param span from the first number to the last
 * @param byName whether the column is named a time
 */
export function possibleScales(
  first: number,
  step: number,
  span: number,
  isInteger: boolean,
  rate: number | undefined,
  byName: boolean,
): TimeScale[] {
  const all: TimeScale[] = names.map(([scale]) => ({ scale, style: styleOf(scale, first) }));
  if (isSpreadsheetDay(first) && !isInteger) all.push({ scale: 86_400, style: 'days' });
  if (rate !== undefined) {
    const far = ({ scale }: TimeScale): number => Math.abs(logOf(hertzOf(step, scale) / rate));
    const isOfDay = !isInteger && first >= 0 && first <= 2;
    const others = isInteger ? [] : longer.map(([scale]) => scale).filter((scale) => isOfDay || scale < 86_400);
    const [nearest] = [...all, ...others.map(longerScale)].sort((a, b) => far(a) - far(b));
    return far(nearest) < logOf(3) ? [nearest] : [];
  }
  const plausible = all.filter(({ scale }) => isPlausible(hertzOf(step, scale)));
  if (plausible.length === 0) return isInteger ? [] : coarserScales(first, step, span, byName);
  const dated = plausible.filter(({ style }) => style.startsWith('epoch') || style === 'days');
  if (dated.length === 1) return dated;
  const believed = plausible.filter(({ scale }) => span * scale <= settings.plausibleLength);
  return believed.length > 0 ? believed : plausible;
}

/** The other unit whose rate comes nearest to those that vibration is sampled at: what a column might be instead. */
export function otherScale(step: number, scale: number): number {
  const others = (scale < 1 ? names : longer).map(([size]) => size).filter((size) => size !== scale);
  return others.reduce((best, size) => (farFrom(hertzOf(step, size)) < farFrom(hertzOf(step, best)) ? size : best));
}

/**
 * Whether a column without a unit could be in another than it was taken to be in. Seconds are what a time is in to
 * everybody, but for a few of them at a rate that is fast and not round, and a clock of the day is a spreadsheet's.
 * @param step @param span in the column's own unit, as `first`
 */
export function isInDoubt(first: number, step: number, span: number, scale: number): boolean {
  if (scale > 1) return !(first > settings.ofDay * span);
  const { rate, length, slow } = settings.minutes;
  const hertz = hertzOf(step, 1);
  return scale < 1 || (hertz > rate && span < length && hertz / 60 > slow && !isRound(hertz));
}

/** Whether converters are sold with a rate: powers of two, or one or two digits that count, but for a thousandth of it. */
function isRound(rate: number): boolean {
  const usual = settings.minutes.round;
  for (let scale = 1; scale <= rate; scale *= 10)
    if (usual.some((one) => Math.abs(rate / (one * scale) - 1) < 1e-3)) return true;
  for (let power = 1; power <= 2 * rate; power *= 2) if (Math.abs(rate / power - 1) < 1e-3) return true;
  return false;
}

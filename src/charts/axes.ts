import { printWidth } from './advances.ts';
import { screenWidth } from './screenWidth.ts';
import { lookedAt } from './closer.ts';
import { layout } from './layout.ts';
import { powerOf, tenTo } from '../numbers/power.ts';
import { log10Of } from '../numbers/logarithm.ts';

/** Domains, ticks and label places of axes, reckoned here so that every theme and host draws the same. */

export interface Domain {
  readonly from: number;
  readonly to: number;
}

/** Greatest span of a log axis in powers of ten: below it lies the noise of arithmetic. */
const decadeLimit = 7;

/** Domain of a log axis that holds the positive values, widened to 1, 2 or 5 times a power of ten. */
export function logDomain(values: Iterable<number>): Domain | undefined {
  let low = Infinity;
  let high = 0;
  for (const value of values) {
    if (!(value > 0) || !Number.isFinite(value)) continue;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (high === 0) return undefined;
  const floor = Math.max(low, high * tenTo(-decadeLimit));
  const from = roundedDown(floor);
  const to = roundedUp(high);
  return from < to ? { from, to } : { from: from / 2, to: to * 2 };
}

/** The same with so many px of a plot's height left free at the top of a log axis, for labels. */
export function withHeadroom({ from, to }: Domain, room: number, height: number): Domain {
  return room === 0 ? { from, to } : { from, to: clean(from * powerOf(to / from, height / (height - room))) };
}

const steps = [1, 2, 5, 10];

function roundedDown(value: number): number {
  const power = tenTo(Math.floor(log10Of(value)));
  const step = [...steps].reverse().find((candidate) => candidate * power <= value * (1 + 1e-9)) ?? 1;
  return clean(step * power);
}

function roundedUp(value: number): number {
  const power = tenTo(Math.floor(log10Of(value)));
  return clean((steps.find((candidate) => candidate * power >= value * (1 - 1e-9)) ?? 10) * power);
}

const clean = (value: number): number => Number(value.toPrecision(6));

/** Ticks of a log axis: 1, 2, 5 of each power of ten where there are few powers, else the powers alone. */
export function logTicks({ from, to }: Domain): number[] {
  const powers = log10Of(to / from);
  const wanted = powers <= 3.2 ? [1, 2, 5] : [1];
  const ticks: number[] = [];
  for (let exponent = Math.floor(log10Of(from)); exponent <= Math.ceil(log10Of(to)); exponent++) {
    for (const step of wanted) {
      const tick = clean(step * tenTo(exponent));
      if (tick >= from * (1 - 1e-9) && tick <= to * (1 + 1e-9)) ticks.push(tick);
    }
  }
  return ticks;
}

/** Domain of a linear axis that holds all values but the outermost few, which would press the rest flat. */
export function withinFew(values: readonly number[]): Domain {
  const sorted = values.filter(Number.isFinite).sort((a, b) => a - b);
  const few = Math.floor(sorted.length * 0.01);
  const [from, to] = [Math.min(0, sorted[few] ?? 0), Math.max(0, sorted[sorted.length - 1 - few] ?? 0)];
  const room = (to - from) * 0.05 + 0.5;
  return { from: from - room, to: to + room };
}

/** Of a value that is no part of ten to a whole power: what `raised` gives for its exponent, as an expression of Vega. */
function powerLabel(value: string): string {
  const exponent = `floor(log(abs(${value})) / LN10 + 1e-9)`;
  const digit = (figure: string): string => `substring('⁰¹²³⁴⁵⁶⁷⁸⁹', ${figure}, ${figure} + 1)`;
  const size = `abs(${exponent})`;
  const power = `'10' + (${exponent} < 0 ? '⁻' : '') + (${size} > 9 ? ${digit(`floor(${size} / 10)`)} : '') + ${digit(`${size} % 10`)}`;
  const mantissa = `format(${value} / pow(10, ${exponent}), '~r')`;
  return `(${mantissa} == '1' ? '' : ${mantissa} + '×') + ${power}`;
}

/** Figures of a linear axis, all with equally many decimals and none grouped; powers of ten outside 0.0001 to 100 000. */
export const figureLabel = `datum.value == 0 ? '0' : abs(datum.value) < 0.0001 || abs(datum.value) >= 100000 ? ${powerLabel('datum.value')} : replace(datum.label, regexp(',', 'g'), '')`;

/** Figures of a log axis: all of them as powers of ten where one of them has to be. */
const logLabel = (ticks: readonly number[]): string =>
  ticks.some((tick) => tick < 0.001 || tick >= 100000) ? powerLabel('datum.value') : "format(datum.value, '~r')";

/** Ticks and figures of a scale whose values are logarithms to the base of ten: whole powers. */
export function powerTicks({ from, to }: Domain): object {
  const first = Math.ceil(from - 1e-9);
  const values = Array.from({ length: Math.max(0, Math.floor(to + 1e-9) - first + 1) }, (_, index) => first + index);
  return { values, labelExpr: powerLabel('pow(10, datum.value)') };
}

/** Domain from zero to the largest; of nothing but zeros too. */
export const fromZero = (values: readonly (number | null)[], room = 1): object => {
  const largest = Math.max(0, ...values.map((value) => value ?? 0));
  return { domain: [0, largest > 0 ? largest * room : 1], nice: true, zero: true };
};

/** What a picture over frequency is to show of its axis. */
export interface FrequencyOptions {
  readonly frequency: 'linear' | 'log';
  /** In Hz. */
  readonly over?: Domain;
}

/** A frequency axis in Hz over a domain. */
export function frequencyAxis(
  domain: Domain,
  scale: 'linear' | 'log',
  title = 'Frequency (Hz)',
  labels = true,
): object {
  return {
    field: 'f',
    type: 'quantitative',
    scale: { type: scale, domain: [domain.from, domain.to], nice: false, zero: false },
    axis: {
      title: labels ? title : null,
      labels,
      grid: true,
      ...(scale === 'log'
        ? { values: logTicks(domain), labelExpr: logLabel(logTicks(domain)), labelOverlap: 'greedy' }
        : { tickCount: { expr: 'floor(width / 70)' }, labelExpr: figureLabel }),
    },
  };
}

/** The part of frequencies that is asked for, as far as there are any; a log axis begins above 0 Hz. @param cut in Hz: what is lower means nothing */
export function frequencyRange(
  lowest: number,
  highest: number,
  { over: asked, frequency }: FrequencyOptions,
  cut = 0,
): Domain {
  const over = lookedAt('frequency', asked);
  const least = Math.max(frequency === 'log' ? lowest : 0, cut);
  const from = Math.max(over?.from ?? 0, least);
  const to = Math.min(over?.to ?? highest, highest);
  return from < to ? { from, to } : { from: least, to: highest };
}

/** A level axis, logarithmic over a domain. */
export function logLevelAxis(title: string, domain: Domain): object {
  const values = logTicks(domain);
  return {
    field: 'v',
    type: 'quantitative',
    scale: { type: 'log', domain: [domain.from, domain.to], nice: false },
    axis: { title, values, labelExpr: logLabel(values), labelOverlap: 'greedy' },
  };
}

/** A linear axis of levels, changes or figures. */
export const levelAxis = (field: string, title: string | null, scale: object, axis: object = {}): object => ({
  field,
  type: 'quantitative',
  scale,
  axis: { title, labelExpr: figureLabel, tickCount: 6, ...axis },
});

/** A time axis over a domain in s. */
export const timeAxis = (field: string, { from, to }: Domain, axis: object = {}): object => ({
  field,
  type: 'quantitative',
  scale: { domain: [from, to], nice: false, zero: false },
  axis: { title: 'Time (s)', labelExpr: figureLabel, tickCount: { expr: 'floor(chartWidth / 90)' }, ...axis },
});

/** Runs beside one another, in the order of their names. */
export const runsAxis = (field: string, names: readonly string[], axis: object = {}): object => ({
  field,
  type: 'nominal',
  sort: null,
  scale: { domain: names },
  axis: { title: 'Run', ...fittedNames(names), labelExpr: namesKept(names), ...axis },
});

/** px from one turned name to the next at which they do not touch. */
const turnedSpacing = 17;

/**
 * Of more names than can stand beside one another, turned, every second one, or third: by their places, as names come
 * from files and may hold what no expression takes.
 */
const namesKept = (names: readonly string[]): string =>
  `round(datum.index * ${Math.max(1, names.length - 1)}) % max(1, ceil(${turnedSpacing * names.length} / max(1, chartWidth - ${layout().besidePlot}))) === 0 ? datum.label : ''`;

/** Width in px that a text of the labels' size takes, near enough to keep labels apart. */
export const textWidth = (text: string, size = 11): number =>
  layout().print ? printWidth(text, size) : screenWidth(text, size);

/** Width in px that names beside one another under an axis take. */
const widthOfNames = (names: readonly string[]): number =>
  Math.ceil(Math.max(0, ...names.map((name) => textWidth(name) + 10)) * names.length);

/** Names under an axis, level where they fit and turned where they would touch. */
export function fittedNames(names: readonly string[]): object {
  const either = (turned: string, level: string): object => ({
    expr: `chartWidth - ${layout().besidePlot} < ${widthOfNames(names)} ? ${turned} : ${level}`,
  });
  return {
    labelAngle: either('-40', '0'),
    labelAlign: either("'right'", "'center'"),
    labelBaseline: either("'middle'", "'top'"),
    labelLimit: 110,
  };
}

/** Height in px that such names take at the default width, with the axis' title. */
export const heightOfNames = (names: readonly string[]): number =>
  widthOfNames(names) > layout().width - layout().besidePlot ? 110 : 50;

export interface Label {
  /** Where on the axis, 0 to 1. */
  readonly at: number;
  readonly text: string;
  /** Whether the text is centred on its place or stands to its right. */
  readonly align: 'left' | 'center';
}

export interface PlacedLabel {
  readonly at: number;
  readonly text: string;
  /** 0 is the topmost row. */
  readonly row: number;
  readonly align: 'left' | 'center' | 'right';
}

/** Puts labels in the first row where they touch no other; those that find no place in so many rows are left out. */
export function placeLabels(labels: readonly Label[], width: number, rows: number): PlacedLabel[] {
  const ends: [number, number][][] = Array.from({ length: rows }, () => []);
  return labels.flatMap(({ at, text, align }) => {
    const size = textWidth(text) + 8;
    const wanted = at * width - (align === 'center' ? size / 2 : 0);
    const start = Math.max(0, wanted + size > width ? at * width - size : wanted);
    const row = ends.findIndex((taken) => taken.every(([from, to]) => start + size <= from || start >= to));
    if (row < 0) return [];
    ends[row].push([start, start + size]);
    const side = start === wanted ? align : start < wanted ? 'right' : 'left';
    return [{ at, text, row, align: side }];
  });
}

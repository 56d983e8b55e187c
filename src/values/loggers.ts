import { detail, field, figure } from './columns.ts';
import type { Column, Description } from './description.ts';
import { figureCells, rowsCells, rowsJson } from './rows.ts';
import type { Run } from './run.ts';
import { rowsIn } from './scaling.ts';
import { inShort } from './short.ts';
import { transferKind, type TransferEntry, type TransferValue } from './transfer.ts';
import type { Unit } from '../units/unit.ts';
import type { WindowValue } from './window.ts';
import { counted } from '../result/words.ts';

/** Two loggers that recorded the same side by side: their clocks, and what B reads over what A reads. */
export interface LoggersValue {
  readonly kind: 'loggers';
  readonly a: LoggerSide;
  readonly b: LoggerSide;
  readonly clock: LoggersClock;
  readonly window: WindowValue;
  /** Of the intervals, 0 to 1. */
  readonly confidence: number;
  /** Coherence below which the responses are not to be read. */
  readonly leastCoherence: number;
  /** From each channel of A to the same of B, with B on A's clock. */
  readonly responses: readonly TransferEntry[];
  readonly rows: readonly LoggersRow[];
  readonly sentence: string;
}

export interface LoggerSide {
  readonly name: string;
  readonly run: Run;
}

/** B's clock shows t (1 + fast) - late at t on A's; times in s. */
export interface LoggersClock {
  readonly late: number;
  /** Standard errors, and their degrees of freedom; undefined where too few stretches tell them. */
  readonly lateError: number | undefined;
  /** A fraction; 0 where the rates could not be told apart. */
  readonly fast: number;
  readonly fastError: number | undefined;
  readonly df: number;
  /** Of the stretches' delays about the line. */
  readonly scatter: number;
  readonly stretches: number;
  /** What both hold. */
  readonly common: number;
  /** The channel whose samples told it. */
  readonly channel: string;
}

/** One channel in one band. */
export interface LoggersRow {
  readonly channel: string;
  /** Of A's channel; B's figures are in it, too. */
  readonly unit: Unit;
  readonly from: number;
  readonly to: number;
  /** R.m.s. in the band. */
  readonly a: number;
  readonly b: number;
  /** b / a. */
  readonly ratio: number;
  /** Standard error of its logarithm from stretch to stretch, and the degrees of freedom; undefined where too few tell it. */
  readonly error: number | undefined;
  readonly df: number;
  /** Of the ratio, at the confidence. */
  readonly low: number | undefined;
  readonly high: number | undefined;
  /** Weighted by A's mean square, and the least of any bin that lies within the band. */
  readonly coherence: number;
  readonly leastCoherence: number;
}

const own = ({ unit }: LoggersRow): Unit => unit;
const inPpm = (fraction: number | undefined): number | undefined => fraction && 1e6 * fraction;
const percentOver = (ratio: number | undefined): number | undefined =>
  ratio === undefined ? undefined : 100 * (ratio - 1);

/** The responses as a value of their own. */
export const responsesOf = ({ responses, window, leastCoherence }: LoggersValue): TransferValue => ({
  kind: 'transfer',
  set: undefined,
  window,
  leastCoherence,
  entries: responses,
});

const named = ({ a, b }: LoggersValue): string => `${b.name} against ${a.name}`;

/** The scale of a standard error to what the figure is of. */
const partOf =
  (of: 'ratio' | 'percent') =>
  (row: LoggersRow, value: LoggersValue): { input: string; size: number; df: number }[] | undefined => {
    if (row.error === undefined) return undefined;
    const scale = of === 'ratio' ? row.ratio : 100 * row.ratio;
    const input = `${named(value)}, ${row.channel}, ${row.from} to ${row.to} Hz, ${row.ratio}`;
    return [{ input, size: scale * row.error, df: row.df }];
  };

const clockPart =
  (of: (clock: LoggersClock) => number | undefined, what: string) =>
  ({ clock }: LoggersValue, value: LoggersValue): { input: string; size: number; df: number }[] | undefined => {
    const size = of(clock);
    return size === undefined ? undefined : [{ input: `${what} of ${named(value)}`, size, df: clock.df }];
  };

const clockColumns: readonly Column<LoggersValue, LoggersValue>[] = [
  detail('a', ({ a }) => ({ name: a.name, run: a.run.label }), 'parts'),
  detail('b', ({ b }) => ({ name: b.name, run: b.run.label }), 'parts'),
  field('late', 's', ({ clock }) => clock.late, 'By how much the second clock is behind the first one’s start', {
    parts: clockPart(({ lateError }) => lateError, 'lateness'),
    eitherSign: true,
  }),
  figure('late_uncertainty', 's', ({ clock }) => clock.lateError, { heading: 'u(late)' }),
  field('fast_ppm', '', ({ clock }) => inPpm(clock.fast), 'By how many millionths the second clock runs fast', {
    parts: clockPart(({ fastError }) => inPpm(fastError), 'rate'),
    heading: 'fast, ppm',
    eitherSign: true,
  }),
  figure('fast_ppm_uncertainty', '', ({ clock }) => inPpm(clock.fastError), { heading: 'u(fast), ppm' }),
  figure('clock_scatter', 's', ({ clock }) => clock.scatter, { heading: 'scatter of the delays' }),
  figure('stretches', '', ({ clock }) => clock.stretches),
  figure('common', 's', ({ clock }) => clock.common),
  figure('clock_from', '', ({ clock }) => clock.channel),
  figure('window', '', ({ window }) => window.shape),
  figure('window', 's', ({ window }) => window.length),
  figure('confidence', '', ({ confidence }) => confidence),
  figure('least_coherence', '', ({ leastCoherence }) => leastCoherence, { jsonKey: 'coherence_to_be_read' }),
  detail('sentence', ({ sentence }) => sentence, 'text'),
];

export const loggersKind = {
  kind: 'loggers',
  words: 'two loggers side by side',
  summary: (value) => inShort('two loggers', named(value), counted(value.rows.length, 'row')),
  caption: (value) => `What ${value.b.name} reads over what ${value.a.name} reads`,
  whole: clockColumns,
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['channel and band', 'a channel in a band'],
    unit: own,
    names: [
      figure('channel', '', ({ channel }) => channel),
      figure('from', 'Hz', ({ from }) => from, { each: 'as given' }),
      figure('to', 'Hz', ({ to }) => to, { each: 'as given' }),
    ],
    columns: [
      figure('a', own, ({ a }) => a, { heading: ({ a }) => a.name }),
      figure('b', own, ({ b }) => b, { heading: ({ b }) => b.name }),
      field('ratio', '', ({ ratio }) => ratio, 'What the second logger reads over what the first one reads', {
        parts: partOf('ratio'),
        digits: 5,
      }),
      field('difference', '%', ({ ratio }) => percentOver(ratio), 'By how much the second logger reads higher', {
        parts: partOf('percent'),
        signed: true,
        digits: 3,
        eitherSign: true,
      }),
      figure('low', '%', ({ low }) => percentOver(low), { signed: true, digits: 3, title: 'from' }),
      figure('high', '%', ({ high }) => percentOver(high), { signed: true, digits: 3, title: 'to' }),
      field('coherence', '', ({ coherence }) => coherence, 'The coherence, weighted by mean square,', { digits: 4 }),
      field('least_coherence', '', ({ leastCoherence }) => leastCoherence, 'The least coherence', {
        digits: 3,
        title: 'Least coherence',
      }),
    ],
    pick: { keep: (value, rows) => ({ ...value, rows }) },
  },
  after: [detail('responses', (value) => rowsJson(transferKind.rows, responsesOf(value)), 'rows')],
  savedBeside: (value) => [
    { of: 'clock', cells: figureCells(`The clock of ${named(value)}`, clockColumns, [value], value) },
    {
      of: 'responses',
      cells: rowsCells(`Frequency response of ${named(value)}`, transferKind.rows, responsesOf(value)),
    },
  ],
  inUnit(value, asked) {
    const rows = rowsIn(value.rows, asked, own, (row, { unit, factor }) => ({
      ...row,
      unit,
      a: row.a * factor,
      b: row.b * factor,
    }));
    return rows && { ...value, rows };
  },
  runs: ({ a, b }) => [a.run, b.run],
} satisfies Description<LoggersValue, LoggersRow>;

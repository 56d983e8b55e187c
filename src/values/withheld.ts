import type { Sequence } from '../statistics/sequence.ts';
import type { Message } from '../result/result.ts';
import type { ComparisonRow } from './comparisonParts.ts';

/** Why nothing is inferred of a row: too few runs, or none that scatter. */
const nothingInferred = ['one-run-each', 'few-runs', 'few-in-cell', 'few-for-slope', 'no-scatter'];

/** Why the order of the runs keeps a verdict back. */
const withholdingOrder: Readonly<Record<Sequence, readonly string[]>> = {
  unknown: [],
  interleaved: [],
  leaning: [],
  apart: ['compare.order-apart'],
  'other-days': ['compare.other-days'],
};

/** What of a comparison keeps verdicts back. */
interface GuardedComparison {
  readonly rows: readonly ComparisonRow[];
  readonly sequence?: Sequence;
  readonly guards?: readonly Message[];
}

/** Whether a verdict by a row is kept back, though it may have an interval. */
export const isRowWithheld = (
  row: ComparisonRow,
  { sequence, guards = [] }: Omit<GuardedComparison, 'rows'>,
): boolean =>
  guards.length > 0 ||
  row.lowPercent === undefined ||
  withholdingOrder[row.sequence ?? sequence ?? 'unknown'].length > 0 ||
  (row.guards ?? []).length > 0;

/** Whether every verdict by a comparison is kept back: then nothing that is said of it may name a direction. */
export const isWithheld = ({ rows, ...whole }: GuardedComparison): boolean =>
  rows.every((row) => isRowWithheld(row, whole));

/** Codes of a comparison's warnings that say why a verdict by one of its rows is kept back. */
export const withholdingCodes = ({ rows, sequence, guards = [] }: GuardedComparison): readonly string[] => [
  ...rows.flatMap((row) => [
    ...withholdingOrder[row.sequence ?? sequence ?? 'unknown'],
    ...(row.lowPercent === undefined ? nothingInferred.map((code) => `compare.${code}`) : []),
  ]),
  ...[...guards, ...rows.flatMap((row) => row.guards ?? [])].map(({ code, facts }) =>
    'code' in facts ? `fault.${String(facts.code)}` : code.replace(/^guard\./, 'compare.'),
  ),
];

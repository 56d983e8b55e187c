import type { Sequence } from '../statistics/sequence.ts';
import type { ComparisonValue } from './comparison.ts';

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

/** Whether every verdict by a comparison is kept back: then nothing that is said of it may name a direction. */
export const isWithheld = ({ rows, sequence, guards = [] }: ComparisonValue): boolean =>
  guards.length > 0 ||
  rows.every(
    (row) =>
      row.lowPercent === undefined ||
      withholdingOrder[row.sequence ?? sequence ?? 'unknown'].length > 0 ||
      (row.guards ?? []).length > 0,
  );

/** Codes of a comparison's warnings that say why a verdict by one of its rows is kept back. */
export const withholdingCodes = ({ rows, sequence, guards = [] }: ComparisonValue): readonly string[] => [
  ...rows.flatMap((row) => [
    ...withholdingOrder[row.sequence ?? sequence ?? 'unknown'],
    ...(row.lowPercent === undefined ? nothingInferred.map((code) => `compare.${code}`) : []),
  ]),
  ...[...guards, ...rows.flatMap((row) => row.guards ?? [])].map(({ code, facts }) =>
    'code' in facts ? `fault.${String(facts.code)}` : code.replace(/^guard\./, 'compare.'),
  ),
];

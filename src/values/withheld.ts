import type { ComparisonValue } from './comparison.ts';

/** Why nothing is inferred of a row: too few runs, or none that scatter. */
const nothingInferred = ['one-run-each', 'few-runs', 'few-in-cell', 'few-for-slope', 'no-scatter'];

/** Codes of a comparison's warnings that say why a verdict by one of its rows is kept back. */
export const withholdingCodes = ({ rows, sequence, guards = [] }: ComparisonValue): readonly string[] => [
  ...rows.flatMap((row) => [
    ...((row.sequence ?? sequence) === 'apart' ? ['compare.order-apart'] : []),
    ...(row.lowPercent === undefined ? nothingInferred.map((code) => `compare.${code}`) : []),
  ]),
  ...[...guards, ...rows.flatMap((row) => row.guards ?? [])].map(({ code, facts }) =>
    'code' in facts ? `fault.${String(facts.code)}` : code.replace(/^guard\./, 'compare.'),
  ),
];

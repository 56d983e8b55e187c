import { findingsCaption, likewise, noFindings } from '../words/recordings.ts';
import type { FindingsValue } from '../../values/findings.ts';
import { grouped } from '../../numbers/grouped.ts';
import { severities, worstFirst } from '../../result/severity.ts';
import { counted, fewNames } from '../../result/words.ts';
import { findingsChart } from '../plots/findings.ts';
import { columns, some, type Presenter } from './kind.ts';

/** The most serious first; a clean check says so. */
export const presentFindings: Presenter<'findings'> = (value) => {
  const { rows } = value;
  if (rows.length === 0) return [{ type: 'text', text: noFindings }];
  const sorted = worstFirst(rows, ({ finding }) => finding);
  const counts = severities.flatMap((severity) => {
    const count = rows.filter(({ finding }) => finding.severity === severity).length;
    return count === 0 ? [] : [counted(count, severity)];
  });
  return some(findingsChart(value), {
    type: 'table',
    caption: findingsCaption(counts),
    columns: columns(
      ['Severity', '', 'left'],
      ['What', '', 'left'],
      ['Run', '', 'left'],
      ['Channel', '', 'left'],
      ['Finding', '', 'left'],
    ),
    rows: together(sorted),
  });
};

/** What is said of runs in the same words, and how far the figure that was judged lies from its threshold. */
interface Said {
  readonly cells: readonly string[];
  readonly runs: Set<string>;
  readonly off: number;
}

/** Of so many rows that differ only in their figures one is shown, for nobody reads a page of them. */
const mostAlike = 20;

/** What is said of several runs in the same words is said once; of many that differ in their figures the farthest is told. */
function together(rows: FindingsValue['rows']): string[][] {
  const said = new Map<string, Said>();
  for (const { run, finding } of rows) {
    const { severity, message, channel = 'all', code, value, threshold } = finding;
    const cells = [severity, message, channel, code.replaceAll('-', ' ')];
    const key = cells.join('\u0000');
    const off = Math.abs((value ?? NaN) - (threshold ?? NaN));
    const known = said.get(key) ?? { cells, runs: new Set(), off };
    known.runs.add(run.label);
    said.set(key, known);
  }
  const alike = grouped([...said.values()], ({ cells: [severity, , channel, code] }) =>
    [severity, channel, code].join('\u0000'),
  );
  const isMuch = (group: readonly Said[]): boolean => group.length > mostAlike && group.every(({ off }) => off >= 0);
  return alike.flatMap((group) => (isMuch(group) ? [farthest(group)] : group.map(cellsOf)));
}

const cellsOf = ({ cells: [severity, what, ...rest], runs }: Said): string[] => [
  severity,
  what,
  namesIn([...runs]),
  ...rest,
];

function farthest(group: readonly Said[]): string[] {
  const first = group.reduce((most, one) => (one.off > most.off ? one : most));
  const [severity, what, ...rest] = first.cells;
  const runs = new Set([...first.runs, ...group.flatMap((one) => [...one.runs])]);
  return [severity, `${what} ${likewise([...first.runs], runs.size - first.runs.size)}`, namesIn([...runs]), ...rest];
}

/** Names in a cell of a table, which more of them would make as wide as a page is long. */
const namesIn = (names: readonly string[]): string =>
  names.length <= fewNames
    ? names.join(', ')
    : [...names.slice(0, fewNames - 1), `${names.length - fewNames + 1} more`].join(', ');

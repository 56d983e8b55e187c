import { findingsCaption, noFindings } from '../words/recordings.ts';
import type { FindingsValue } from '../../values/findings.ts';
import { severities, worstFirst } from '../../result/severity.ts';
import { counted } from '../../result/words.ts';
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

/** What is said of several runs in the same words is said once. */
function together(rows: FindingsValue['rows']): string[][] {
  const said = new Map<string, { readonly cells: readonly string[]; readonly runs: Set<string> }>();
  for (const { run, finding } of rows) {
    const { severity, message, channel = 'all', code } = finding;
    const cells = [severity, message, channel, code.replaceAll('-', ' ')];
    const key = cells.join('\u0000');
    const known = said.get(key) ?? { cells, runs: new Set() };
    known.runs.add(run.label);
    said.set(key, known);
  }
  return [...said.values()].map(({ cells: [severity, what, ...rest], runs }) => [
    severity,
    what,
    namesIn([...runs]),
    ...rest,
  ]);
}

/** Names in a cell of a table, which more of them would make as wide as a page is long. */
const mostNames = 40;

const namesIn = (names: readonly string[]): string =>
  names.length <= mostNames
    ? names.join(', ')
    : [...names.slice(0, mostNames - 1), `${names.length - mostNames + 1} more`].join(', ');

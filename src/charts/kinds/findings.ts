import { findingsCaption, noFindings } from '../words/recordings.ts';
import type { FindingsValue } from '../../values/findings.ts';
import { severities, worstFirst } from '../../result/severity.ts';
import { counted } from '../../result/words.ts';
import { distinct } from '../words/names.ts';
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
  const said = rows.map(({ run, finding }) => ({
    run: run.label,
    cells: [finding.severity, finding.message, finding.channel ?? 'all', finding.code.replaceAll('-', ' ')],
  }));
  return distinct(said.map(({ cells }) => cells.join('\u0000'))).map((key) => {
    const [severity, what, ...rest] = key.split('\u0000');
    const runs = distinct(said.filter(({ cells }) => cells.join('\u0000') === key).map(({ run }) => run));
    return [severity, what, runs.join(', '), ...rest];
  });
}

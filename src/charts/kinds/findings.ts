import { counted } from '../names.ts';
import { findingsChart } from '../plots/findings.ts';
import { columns, some, type Presenter } from './kind.ts';

const order = ['fault', 'warning', 'note'];

/** The most serious first; a clean check says so. */
export const presentFindings: Presenter<'findings'> = (value) => {
  const { rows } = value;
  if (rows.length === 0) return [{ type: 'text', text: 'Nothing to remark: every check passed.' }];
  const sorted = [...rows].sort((a, b) => order.indexOf(a.finding.severity) - order.indexOf(b.finding.severity));
  const counts = order.flatMap((severity) => {
    const count = rows.filter(({ finding }) => finding.severity === severity).length;
    return count === 0 ? [] : [counted(count, severity)];
  });
  return some(findingsChart(value), {
    type: 'table',
    caption: `Findings: ${counts.join(', ')}`,
    columns: columns(
      ['Severity', '', 'left'],
      ['Run', '', 'left'],
      ['Channel', '', 'left'],
      ['Finding', '', 'left'],
      ['What', '', 'left'],
    ),
    rows: sorted.map(({ run, finding }) => [
      finding.severity,
      run.label,
      finding.channel ?? 'all',
      finding.code,
      finding.message,
    ]),
  });
};

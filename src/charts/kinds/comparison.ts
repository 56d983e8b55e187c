import type { ComparisonRow, ComparisonValue } from '../../verbs/values.ts';
import { capitalised, counted, distinct, sentence } from '../names.ts';
import { interval, percent, probability, signed, significant, fixed } from '../number.ts';
import type { TablePart } from '../output.ts';
import { comparisonChart } from '../plots/change.ts';
import { bareOverlay } from '../plots/overlay.ts';
import { ratioChart } from '../plots/ratio.ts';
import { runOrderChart } from '../plots/run-order.ts';
import { outcomeWord } from '../plots/change-layers.ts';
import { comparedName } from '../compared.ts';
import { detailsTable, sensitivityTable } from './comparison-details.ts';
import { excludedPart } from './excluded.ts';
import { planPart } from './followed.ts';
import { columns, some, type Presenter } from './kind.ts';

/** What was found in one sentence a band, the picture, and the figures. */
export const presentComparison: Presenter<'comparison'> = (value) =>
  some(
    { type: 'text', text: value.rows.map(({ sentence: said }) => said).join('\n') },
    planPart(value),
    comparisonChart(value, bareOverlay),
    ratioChart(value, bareOverlay),
    ...headRows(value).map((row) => runOrderChart(value, row)),
    comparisonTable(value),
    detailsTable(value),
    sensitivityTable(value),
    excludedPart(value.a.excluded, value.b.excluded),
  );

/** The row whose runs are shown one by one: the band named beforehand, else the one that holds most of A's vibration. */
function headRows({ rows }: ComparisonValue): ComparisonRow[] {
  const primary = rows.filter((row) => row.primary === true);
  const byShare = [...rows].sort((first, second) => (second.shareOfA ?? 0) - (first.shareOfA ?? 0));
  return (primary.length > 0 ? primary : byShare).slice(0, 1);
}

function comparisonTable(value: ComparisonValue): TablePart {
  const { a, b, rows, channel, metric, method, confidence } = value;
  const units = distinct(rows.map(({ unit }) => unit.symbol));
  const unit = units.length === 1 ? units[0] : '';
  const adjusted = rows.some(({ pAdjusted }) => pAdjusted !== undefined);
  const inference = rows.some(({ lowPercent }) => lowPercent !== undefined);
  const sides = `${a.name} (${counted(a.runs.length, 'run')}) to ${b.name} (${counted(b.runs.length, 'run')})`;
  return {
    type: 'table',
    caption: `${capitalised(metric)}, ${channel}, ${sides}. ${sentence(method)}`,
    columns: columns(
      ['Band', '', 'left'],
      [a.name, unit],
      [b.name, unit],
      ['Change', '%'],
      ...(inference ? ([[`${percent(confidence)} interval`, '%']] as const) : []),
      ['Change', 'dB'],
      ...(inference ? ([['p', '']] as const) : []),
      ...(adjusted ? ([['p for all bands', '']] as const) : []),
      [`Share of ${a.name}`, '%'],
      ['Outcome', '', 'left'],
    ),
    rows: rows.map((row) => {
      const { value: change, low, high } = interval(row.changePercent, row.lowPercent, row.highPercent);
      return [
        `${comparedName(value, row)}${row.primary === true ? ' (primary)' : ''}`,
        significant(row.a),
        significant(row.b),
        signed(change),
        ...(inference ? [row.lowPercent === undefined ? '–' : `${signed(low)} to ${signed(high)}`] : []),
        signed(fixed(row.changeDb, 2)),
        ...(inference ? [probability(row.p)] : []),
        ...(adjusted ? [probability(row.pAdjusted)] : []),
        row.shareOfA === undefined ? '–' : significant(row.shareOfA, 3),
        outcomeWord(row.outcome),
      ];
    }),
  };
}

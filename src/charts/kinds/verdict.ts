import { meanSquareHeadings, verdictCaption, verdictLead, verdictLines } from '../words/verdict.ts';
import { sidesIn } from '../../values/comparison.ts';
import type { VerdictValue } from '../../values/verdict.ts';
import { comparedName, rowIntervalName } from '../words/compared.ts';
import { fixed, interval, signed, significant } from '../../values/number.ts';
import type { TablePart } from '../output.ts';
import { verdictChart } from '../plots/verdict.ts';
import { runOrderChart } from '../plots/runOrder.ts';
import { excludedPart } from './excluded.ts';
import { planPart } from './followed.ts';
import { columns, some, type Presenter } from './kind.ts';
import { reachOfRow } from './reach.ts';

/** The verdict as one sentence, why, what would settle it; the interval against the claim; every run. */
export const presentVerdict: Presenter<'verdict'> = (value) =>
  some(
    { type: 'text', style: 'lead', text: verdictLead(value) },
    { type: 'text', text: verdictLines(value).join('\n') },
    reachOfRow(value.comparison, value.row),
    verdictChart(value),
    runOrderChart(value.comparison, value.row),
    verdictTable(value),
    planPart(value.comparison),
    excludedPart(...sidesIn(value.comparison).map(({ excluded }) => excluded)),
  );

function verdictTable(value: VerdictValue): TablePart {
  const { verdict, claim, comparison, row, powerReductionPercent } = value;
  const { value: change, low, high } = interval(row.changePercent, row.lowPercent, row.highPercent);
  const isInferred = row.lowPercent !== undefined;
  return {
    type: 'table',
    caption: verdictCaption(value),
    columns: columns(
      ['Claim', '', 'left'],
      ['Verdict', '', 'left'],
      ['Band', '', 'left'],
      ['Change', '%'],
      ...(isInferred ? ([[rowIntervalName(comparison, row), '%']] as const) : []),
      [meanSquareHeadings.change, '%'],
      ...(row.shareOfA === undefined ? [] : ([[meanSquareHeadings.share, '%']] as const)),
    ),
    rows: [
      [
        claim,
        verdict,
        comparedName(comparison, row),
        signed(change),
        ...(isInferred ? [`${signed(low)} to ${signed(high)}`] : []),
        signed(fixed(-powerReductionPercent, 1)),
        ...(row.shareOfA === undefined ? [] : [significant(row.shareOfA, 3)]),
      ],
    ],
  };
}

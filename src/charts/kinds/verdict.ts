import { sidesIn } from '../../values/comparison.ts';
import type { VerdictValue } from '../../values/verdict.ts';
import { comparedName, rowIntervalName } from '../compared.ts';
import { sentence } from '../names.ts';
import { fixed, interval, signed, significant } from '../../values/number.ts';
import type { TablePart, TextPart } from '../output.ts';
import { verdictChart } from '../plots/verdict.ts';
import { runOrderChart } from '../plots/runOrder.ts';
import { excludedPart } from './excluded.ts';
import { planPart } from './followed.ts';
import { columns, some, type Presenter } from './kind.ts';

/** The verdict as one sentence, why, what would settle it; the interval against the claim; every run. */
export const presentVerdict: Presenter<'verdict'> = (value) =>
  some(
    { type: 'text', style: 'lead', text: `${value.verdict.toUpperCase()}: ${value.claim}.` },
    reasonsPart(value),
    verdictChart(value),
    runOrderChart(value.comparison, value.row),
    verdictTable(value),
    planPart(value.comparison),
    excludedPart(...sidesIn(value.comparison).map(({ excluded }) => excluded)),
  );

/** The sentence that can be quoted, and the reasons as far as it has not told them already. */
function reasonsPart({ sentence: said, untold, settle, source }: VerdictValue): TextPart {
  const lines = [said, ...untold];
  if (settle !== undefined) lines.push(sentence(settle));
  if (source !== undefined) lines.push(`The claim stands in: ${source}.`);
  return { type: 'text', text: lines.join('\n') };
}

function verdictTable({ verdict, claim, comparison, row, powerReductionPercent }: VerdictValue): TablePart {
  const { value: change, low, high } = interval(row.changePercent, row.lowPercent, row.highPercent);
  return {
    type: 'table',
    caption: `Claim against measurement, ${row.baseline} to ${row.condition}, channel ${row.channel}`,
    columns: columns(
      ['Claim', '', 'left'],
      ['Verdict', '', 'left'],
      ['Band', '', 'left'],
      ['Change', '%'],
      [rowIntervalName(comparison, row), '%'],
      ['Change of mean square', '%'],
      ...(row.shareOfA === undefined ? [] : ([['Share of mean square', '%']] as const)),
    ),
    rows: [
      [
        claim,
        verdict,
        comparedName(comparison, row),
        signed(change),
        row.lowPercent === undefined ? '–' : `${signed(low)} to ${signed(high)}`,
        signed(fixed(-powerReductionPercent, 1)),
        ...(row.shareOfA === undefined ? [] : [significant(row.shareOfA, 3)]),
      ],
    ],
  };
}

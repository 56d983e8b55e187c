import type { VerdictValue } from '../../verbs/values/verdict.ts';
import { comparedName } from '../compared.ts';
import { sentence } from '../names.ts';
import { interval, percent, significant } from '../number.ts';
import type { TablePart } from '../output.ts';
import { verdictChart } from '../plots/verdict.ts';
import { runOrderChart } from '../plots/run-order.ts';
import { excludedPart } from './excluded.ts';
import { planPart } from './followed.ts';
import { columns, some, type Presenter } from './kind.ts';

/** The verdict as one sentence, why, what would settle it; the interval against the claim; every run. */
export const presentVerdict: Presenter<'verdict'> = (value) =>
  some(
    { type: 'text', text: verdictText(value) },
    verdictChart(value),
    runOrderChart(value.comparison, value.row),
    verdictTable(value),
    planPart(value.comparison),
    excludedPart(value.comparison.a.excluded, value.comparison.b.excluded),
  );

function verdictText({ verdict, sentence: said, because, settle, source }: VerdictValue): string {
  const lines = [`${verdict.toUpperCase()}. ${said}`, ...because.map(sentence)];
  if (settle !== undefined) lines.push(sentence(settle));
  if (source !== undefined) lines.push(`The claim stands in: ${source}.`);
  return lines.join('\n');
}

function verdictTable({ verdict, claim, comparison, row, ...value }: VerdictValue): TablePart {
  const { value: reduction, low, high } = interval(value.reductionPercent, value.lowPercent, value.highPercent);
  return {
    type: 'table',
    caption: `Claim against measurement, ${comparison.a.name} to ${comparison.b.name}, channel ${comparison.channel}`,
    columns: columns(
      ['Claim', '', 'left'],
      ['Band', '', 'left'],
      ['Verdict', '', 'left'],
      ['Reduction', '%'],
      [`${percent(comparison.confidence)} interval`, '%'],
      ['Reduction of mean square', '%'],
      [`Share of ${comparison.a.name}`, '%'],
    ),
    rows: [
      [
        claim,
        comparedName(comparison, row),
        verdict,
        reduction,
        value.lowPercent === undefined ? '–' : `${low} to ${high}`,
        significant(value.powerReductionPercent, 3),
        row.shareOfA === undefined ? '–' : significant(row.shareOfA, 3),
      ],
    ],
  };
}

import type { VerdictValue } from '../../values/verdict.ts';
import { comparedName, rowIntervalName } from '../compared.ts';
import { layered } from '../marks.ts';
import { plain } from '../../values/number.ts';
import type { ChartPart } from '../output.ts';
import { chartPart } from '../specification.ts';
import { changeLayers, changeText, type ClaimedChange } from './changeLayers.ts';

const rowHeight = 84;

/** The measured change with its interval against what the claim allows. */
export function verdictChart(value: VerdictValue): ChartPart {
  const { comparison, row, verdict, claim, sentence } = value;
  const claimed = claimedChange(value);
  return chartPart({
    what: 'verdict',
    title: `${verdict === 'not shown' ? 'Not shown' : verdict === 'supported' ? 'Supported' : 'Contradicted'}: ${claim}`,
    subtitle: `${row.lowPercent === undefined ? '' : `Line: ${rowIntervalName(comparison, row)} of the change from ${row.baseline} to ${row.condition}. `}Shaded: changes that the claim allows.`,
    view: layered(rowHeight, changeLayers({ ...comparison, rows: [row] }, claimed), { height: rowHeight }),
    height: rowHeight + 48,
    description: `${sentence} Measured, ${comparedName(comparison, row)}: ${changeText(row)}. The claim allows changes ${allowed(claimed)}.`,
  });
}

/** The claim's ratios as changes in percent. */
function claimedChange({ claimed: { from, to } }: VerdictValue): ClaimedChange {
  const change = (ratio: number | undefined): number | undefined =>
    ratio === undefined ? undefined : 100 * (ratio - 1);
  return { from: change(from), to: change(to) };
}

function allowed({ from, to }: ClaimedChange): string {
  if (from === undefined) return `of ${plain(to, 3)} % and below`;
  return to === undefined ? `of ${plain(from, 3)} % and above` : `from ${plain(from, 3)} to ${plain(to, 3)} %`;
}

import { verdictDescription, verdictSubtitle, verdictTitle } from '../words/verdict.ts';
import type { VerdictValue } from '../../values/verdict.ts';
import type { ClaimedChange } from '../words/compared.ts';
import { layered } from '../marks.ts';
import type { ChartPart } from '../output.ts';
import { chartPart } from '../specification.ts';
import { changeLayers } from './changeLayers.ts';

const rowHeight = 84;

/** The measured change with its interval against what the claim allows. */
export function verdictChart(value: VerdictValue): ChartPart {
  const { comparison, row } = value;
  const claimed = claimedChange(value);
  return chartPart({
    what: 'verdict',
    title: verdictTitle(value),
    subtitle: verdictSubtitle(value, claimed),
    view: layered(rowHeight, changeLayers({ ...comparison, rows: [row] }, rowHeight, claimed), { height: rowHeight }),
    height: rowHeight + 48,
    description: verdictDescription(value, claimed),
  });
}

/** The claim's ratios as changes in percent. */
function claimedChange({ claimed: { from, to } }: VerdictValue): ClaimedChange {
  const change = (ratio: number | undefined): number | undefined =>
    ratio === undefined ? undefined : 100 * (ratio - 1);
  return { from: change(from), to: change(to) };
}

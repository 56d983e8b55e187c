import { grouped } from '../../numbers/grouped.ts';
import { remarkedOn } from '../words/recordings.ts';
import type { FindingsValue } from '../../values/findings.ts';
import { signalsOf, type Run } from '../../values/run.ts';
import type { ChartPart } from '../output.ts';
import { panelChart } from './trace.ts';
import type { Panel } from './tracePanel.ts';

/** The recordings with the places that were remarked on; undefined when no finding names a place. */
export const findingsChart = (value: FindingsValue): ChartPart | undefined =>
  panelChart(findingsPanels(value), { marks: [] }, remarkedOn);

/** A panel for each signal with such a place. */
export function findingsPanels({ rows }: FindingsValue): Panel[] {
  const placed = rows.filter(({ finding }) => finding.severity !== 'note' && (finding.spans ?? []).length > 0);
  return grouped(placed, ({ run }) => run.label).flatMap((own) => panelsOf(own[0].run, own));
}

/** Faults are of signals: of a resultant the axes are drawn. */
function panelsOf(run: Run, rows: FindingsValue['rows']): Panel[] {
  return signalsOf(run).flatMap((channel, colour) => {
    const own = rows.filter(({ finding }) => finding.channel === undefined || finding.channel === channel.name);
    const places = own.flatMap(({ finding }) =>
      (finding.spans ?? []).map(({ from, to }) => ({ from, to, label: finding.code.replaceAll('-', ' ') })),
    );
    return places.length === 0 ? [] : [{ label: `${run.label} · ${channel.name}`, run, channel, colour, places }];
  });
}

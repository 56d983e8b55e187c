import type { Run } from '../values/run.ts';
import type { Kind, Value } from '../values/value.ts';
import type { Panel } from './plots/tracePanel.ts';
import { findingsPanels } from './plots/findings.ts';
import { drawnPanels, panelLimit, tracePanels } from './plots/trace.ts';

export { panelLimit };

/** Kinds of values whose runs charts draw by their samples. */
export const drawnBySamples: readonly Kind[] = ['runs', 'findings'];

/** The runs whose samples the charts of a value draw; all other charts draw what was made of samples. */
export const drawnRuns = (value: Value): readonly Run[] => [
  ...new Set(drawnPanels(panelsOf(value)).map(({ run }) => run)),
];

/** How many panels a value takes in a picture of its own, drawn by samples; a picture has {@link panelLimit} at most. */
export const panelsTaken = (value: Value): number =>
  value.kind === 'runs' ? tracePanels([{ value }]).length : panelsOf(value).length;

function panelsOf(value: Value): readonly Panel[] {
  if (value.kind === 'findings') return findingsPanels(value);
  if (value.kind !== 'chart') return [];
  return tracePanels(
    value.subjects.flatMap(({ name, value: of }) => (of.kind === 'runs' ? [{ name, value: of }] : [])),
  );
}

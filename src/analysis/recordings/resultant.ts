import { success, type Refused, type Result } from '../../result/result.ts';
import { resultantOf } from '../../values/resultant.ts';
import { signalsOf, type Channel, type Run, type Signal } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { refuse } from '../messages/recordings.ts';

/**
 * The runs with one channel each, the resultant of theirs, carried as its axes with their means. Refuses runs of one
 * channel, of several units, and runs whose channels differ from the first's.
 */
export function resultants(runs: RunsValue): Result<RunsValue> {
  const done: Run[] = [];
  for (const run of runs.runs) {
    const refusal = whyNoResultant(run, runs.runs[0]);
    if (refusal !== undefined) return refusal;
    done.push(combined(run, namesOf(run.channels)));
  }
  return success({ ...runs, runs: done });
}

/** The recording that it was trimmed from is combined likewise, so that a plot can show where the stretch lies. */
function combined(run: Run, names: readonly string[]): Run {
  const axes = signalsOf(run).filter(({ name }) => names.includes(name));
  return {
    ...run,
    channels: [resultantOf(axes)],
    history: [...run.history, `resultant of ${names.join(', ')}`],
    ...(run.untrimmed === undefined ? {} : { untrimmed: combined(run.untrimmed, names) }),
  };
}

const namesOf = (channels: readonly Channel[]): string[] => channels.map(({ name }) => name);

function whyNoResultant(run: Run, first: Run): Refused | undefined {
  const { label, channels } = run;
  if (channels.length < 2) return refuse('channel.few', { run: label, channel: channels.at(0)?.name }, 'runs');
  const axes = signalsOf(run);
  const other = axes.find(({ unit }) => unit.symbol !== axes[0].unit.symbol);
  if (other !== undefined) {
    const of = ({ name, unit }: Signal): { channel: string; unit: string } => ({ channel: name, unit: unit.symbol });
    return refuse('unit.mixed', { run: label, one: of(axes[0]), other: of(other) }, 'runs');
  }
  return whyOtherAxes({ run, axes }, { run: first, axes: signalsOf(first) }, 'runs');
}

/** A run's label, and the names of the axes that its resultant is of. */
export interface NamedAxes {
  readonly run: string;
  readonly axes: readonly string[];
}

/** The axes of the one run of a set. */
export const axesOfResultant = ({ runs: [run] }: RunsValue): NamedAxes => ({
  run: run.label,
  axes: namesOf(signalsOf(run)),
});

/**
 * Why runs that were combined each by itself make no set: the axes of one are not those of the first.
 * @param found of each run, in order; at least one
 */
export function whyOtherAxesAmong(found: readonly NamedAxes[]): Refused | undefined {
  const [{ run: other, axes: otherAxes }] = found;
  const strange = found.find(({ axes }) => axes.join('\n') !== otherAxes.join('\n'));
  return strange && refuse('resultant.axes', { ...strange, other, otherAxes }, 'runs');
}

/** Resultants are alike only where their axes are: a sum of other axes is another quantity. @param at what is to blame */
export function whyOtherAxes(one: Axes, first: Axes, at: string): Refused | undefined {
  const [axes, otherAxes] = [one, first].map((of) => namesOf(of.axes));
  if (axes.join('\n') === otherAxes.join('\n')) return undefined;
  return refuse('resultant.axes', { run: one.run.label, axes, other: first.run.label, otherAxes }, at);
}

interface Axes {
  readonly run: Pick<Run, 'label'>;
  readonly axes: readonly Signal[];
}

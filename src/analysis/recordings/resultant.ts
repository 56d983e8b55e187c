import { success, type Refused, type Result } from '../../result/result.ts';
import { resultant as vectorSum } from '../../signal/resultant.ts';
import type { Channel, Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { refuse } from '../messages/recordings.ts';

/** The runs with one channel each, the vector sum of theirs. Refuses runs of one channel, and of several units. */
export function resultantOf(runs: RunsValue): Result<RunsValue> {
  const summed: Run[] = [];
  for (const run of runs.runs) {
    const refusal = whyNoSum(run);
    if (refusal !== undefined) return refusal;
    const names = run.channels.map(({ name }) => name);
    summed.push({
      ...run,
      channels: [sumOf(run.channels)],
      history: [...run.history, `resultant of ${names.join(', ')}`],
    });
  }
  return success({ ...runs, runs: summed });
}

function sumOf(axes: readonly Channel[]): Channel {
  const { header: _header, ...first } = axes[0];
  return {
    ...first,
    name: 'resultant',
    samples: vectorSum(axes.map(({ samples }) => samples)),
    includesStatic: axes.some(({ includesStatic }) => includesStatic),
  };
}

function whyNoSum({ label: run, channels }: Run): Refused | undefined {
  if (channels.length < 2) return refuse('channel.few', { run, channel: channels.at(0)?.name }, 'runs');
  const [first] = channels;
  const other = channels.find(({ unit }) => unit.symbol !== first.unit.symbol);
  if (other === undefined) return undefined;
  const of = ({ name, unit }: Channel): { channel: string; unit: string } => ({ channel: name, unit: unit.symbol });
  return refuse('unit.mixed', { run, one: of(first), other: of(other) }, 'runs');
}

import { findChannel } from '../../readers/findChannel.ts';
import { success, type Result } from '../../result/result.ts';
import type { Channel, Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { refuse } from '../messages/recordings.ts';

/**
 * The runs with these channels alone, in the order of `names`, each once. Refuses a name that is no channel of a run.
 * @param names channels' names, or their headers
 */
export function withChannels(runs: RunsValue, names: readonly string[]): Result<RunsValue> {
  const kept: Run[] = [];
  for (const run of runs.runs) {
    const channels: Channel[] = [];
    for (const name of names) {
      const found = findChannel(run.channels, name);
      if (found === undefined) {
        const known = run.channels.map((one) => one.name);
        return refuse('channel.unknown', { run: run.label, channel: name, known }, 'channel');
      }
      if (!channels.includes(found)) channels.push(found);
    }
    kept.push({ ...run, channels });
  }
  return success({ ...runs, runs: kept });
}

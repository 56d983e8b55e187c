import { success, type Result } from '../../result/result.ts';
import { changed } from '../../values/resultant.ts';
import type { Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { eachBlock, isLong, signalsIn, type LongerRun, type Reach } from './longRuns.ts';

/**
 * Runs as they are, but for those that became short enough for memory: their samples are read. Refuses a file that is not
 * as it was.
 */
export async function shortRunsRead(runs: RunsValue, reach: Reach): Promise<Result<RunsValue>> {
  const taken: Run[] = [];
  for (const run of runs.runs) {
    const found = isLong(run) && isShortEnough(run) ? await withItsSamples(run, reach) : success(run);
    if (!found.ok) return found;
    taken.push(found.value);
  }
  return success({ ...runs, runs: taken });
}

const isShortEnough = ({ long: { from, to, recording }, channels }: LongerRun): boolean =>
  (to - from) * channels.length <= recording.sizes.most;

async function withItsSamples(run: LongerRun, reach: Reach): Promise<Result<Run>> {
  const { long, ...rest } = run;
  const names = signalsIn(run).map(({ name }) => name);
  const all = names.map(() => new Float64Array(long.to - long.from));
  const refused = await eachBlock(run, reach, `reading ${run.label}`, ({ from, signals }) =>
    signals.forEach((samples, k) => all[k].set(samples, from)),
  );
  if (refused !== undefined) return refused;
  const channels = rest.channels.map((channel) =>
    changed(channel, ({ outline: _drawn, ...signal }) => ({ ...signal, samples: all[names.indexOf(signal.name)] })),
  );
  // It stands in memory now.
  const findings = rest.findings.filter(({ code }) => code !== 'read-in-parts');
  return success({ ...rest, channels, findings });
}

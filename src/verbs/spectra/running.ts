import { moments } from '../../signal/levels.ts';
import { runningRms } from '../../signal/running.ts';
import { seconds } from '../../analysis/amounts.ts';
import { joined } from '../../analysis/recordings/uniformRate.ts';
import { siOf, valueOf } from '../arguments.ts';
import { pieces, whyUneven } from '../../analysis/recordings/runs.ts';
import { alsoOf, together, type RunWarning } from '../../analysis/together.ts';
import type { Channel, Run } from '../../values/run.ts';
import type { RunningEntry } from '../../values/running.ts';
import { answer, type Verb } from '../verb.ts';
import { refuse } from '../../result/result.ts';

const usualLength = 1;

export const running: Verb = {
  form: {
    verb: 'running',
    summary: 'Gives the running r.m.s. over time, and its maximum.',
    help: 'sqrt((1/τ)∫a²dt) over the τ seconds that end at each sample, linear averaging, with the mean of the run removed first. Its maximum over 1 s of a weighted acceleration is the MTVV (ISO 2631-1:1997, 6.3.1). No span reaches across a gap. It shows when a run was rough: one event that holds most of a run makes its r.m.s. a poor summary.',
    operands: [{ name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] }],
    options: [
      {
        keyword: 'over',
        doc: 'Length of the span.',
        accepts: [{ type: 'quantity', dimension: 'time', above: 0 }],
        default: '1 s',
      },
    ],
    gives: 'running',
    examples: ['foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nrunning foam over 1 s'],
  },
  evaluate(given, { watch }) {
    const runs = valueOf(given, 'runs', 'runs');
    const uneven = whyUneven(runs);
    if (uneven !== undefined) return uneven;
    const over = siOf(given, 'over') ?? usualLength;
    const entries: RunningEntry[] = [];
    const warnings: RunWarning[] = [];
    for (const run of runs.runs) {
      watch.progress(entries.length / runs.runs.length, `running r.m.s. of ${run.label}`);
      const length = Math.round(over * run.rate);
      if (length < 1)
        return refuse(
          'running.short',
          `A span of ${over} s holds no sample of ${run.label}: take a longer one.`,
          'over',
        );
      const longest = Math.max(...run.stretches.map(({ from, to }) => to - from));
      if (longest < length) {
        return refuse(
          'running.long',
          `The longest unbroken stretch of ${run.label} is ${seconds(longest / run.rate)}, and a span of ${seconds(over)} does not fit in it.`,
          'over',
        );
      }
      if (length < 8) {
        warnings.push({
          code: 'running.few',
          of: run.label,
          tell: (others) => ({
            code: 'running.few',
            message: `A span of ${seconds(over)} holds only ${length} samples of ${run.label}: it follows the wave itself rather than its level.${alsoOf(others)}`,
          }),
        });
      }
      for (const channel of run.channels) entries.push(runningOf(run, channel, length));
    }
    return answer({ kind: 'running', set: runs.set, over, entries }, together(warnings));
  },
};

/** Running r.m.s. over so many samples; the run holds at least one stretch as long. */
export function runningOf(run: Run, channel: Channel, length: number): RunningEntry {
  const { mean } = moments(channel.samples);
  const times: Float64Array[] = [];
  const values: Float64Array[] = [];
  let largest = -1;
  let largestAt = 0;
  pieces(run, channel).forEach((piece, s) => {
    if (piece.length < length) return;
    const found = runningRms(piece, length, mean);
    const { start } = run.stretches[s];
    values.push(found.values);
    times.push(found.values.map((_, i) => start + (length - 1 + i) / run.rate));
    if (found.maximum > largest) {
      largest = found.maximum;
      largestAt = start + found.maximumAt / run.rate;
    }
  });
  return { run, channel, times: joined(times), rms: joined(values), largest, largestAt };
}

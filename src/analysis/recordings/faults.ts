import type { Warning } from '../../result/result.ts';
import { findingOf } from '../../readers/messages.ts';
import type { Finding } from '../../readers/recording.ts';
import { signalsOf, type Run } from '../../values/run.ts';

/** The faults of `runs`, each run's once, as warnings of what is made from them; not those of channels they do not have. */
export function faultWarnings(runs: readonly Run[]): Warning[] {
  return [...new Set(runs)].flatMap((run) =>
    findingsOn(run, signalNames(run))
      .filter(({ severity }) => severity === 'fault')
      .map((finding) => ({ ...findingOf(run.label, finding), code: `fault.${finding.code}` })),
  );
}

/** The channels that a run has, by name; of a resultant the axes it is made of. */
export const signalNames = (run: Run): readonly string[] => signalsOf(run).map(({ name }) => name);

/** What was found on a whole run, and on those of its channels. @param channels by name, a resultant's axes one by one */
export const findingsOn = ({ findings }: Run, channels: readonly string[]): Finding[] =>
  findings.filter(({ channel }) => channel === undefined || channels.includes(channel));

/** Whether a finding speaks of any part of the stretch `from` one time `to` another, in s from the recording's first sample. */
export function touches({ spans }: Finding, from: number, to: number): boolean {
  return spans === undefined || spans.length === 0 || spans.some((span) => span.to >= from && span.from <= to);
}

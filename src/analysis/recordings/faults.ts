import type { ChannelOfRun, Warning } from '../../result/result.ts';
import { findingOf } from '../../readers/messages.ts';
import type { Finding } from '../../readers/recording.ts';
import { signalsOf, type Run } from '../../values/run.ts';

/** The faults of `runs`, each run's once, as warnings of what is made from them; not those of channels they do not have. */
export function faultWarnings(runs: readonly Run[]): Warning[] {
  return [...new Set(runs)].flatMap((run) =>
    findingsOn(run, signalNames(run))
      .filter(({ severity }) => severity === 'fault')
      .map((finding) => ({ ...warningOf(run.label, finding), code: `${faultPrefix}${finding.code}` })),
  );
}

const faultPrefix = 'fault.';

/** The code of the finding that a warning tells of a run, be it told as a fault of what is made from the run or not. */
export const findingCodeOf = ({ code }: Pick<Warning, 'code'>): string =>
  code.startsWith(faultPrefix) ? code.slice(faultPrefix.length) : code;

/** The channels that a run has, by name; of a resultant the axes it is made of. */
export const signalNames = (run: Run): readonly string[] => signalsOf(run).map(({ name }) => name);

/** What was found on a whole run, and on those of its channels. @param channels by name, a resultant's axes one by one */
export const findingsOn = ({ findings }: Run, channels: readonly string[]): Finding[] =>
  findings.filter(({ channel }) => channel === undefined || channels.includes(channel));

/** A finding as it is told of a run, and of which of its channels. */
export const warningOf = (run: string, finding: Finding): Warning => {
  const { channel } = finding;
  return { ...findingOf(run, finding), concerns: channel === undefined ? { run } : { run, channel } };
};

/**
 * The channels that runs no longer have after a step.
 * @param before the runs that went into it
 * @param after the same runs as they came out, known by their labels; those that are not among them are left out whole,
 * and nothing is said of them
 */
export function channelsLeftOut(before: readonly Run[], after: readonly Run[]): ChannelOfRun[] {
  const kept = new Map(after.map((run) => [run.label, signalNames(run)]));
  return before.flatMap((run) => {
    const names = kept.get(run.label);
    const gone = names === undefined ? [] : signalNames(run).filter((channel) => !names.includes(channel));
    return gone.map((channel) => ({ run: run.label, channel }));
  });
}

/**
 * Warnings but for those of channels that were left out.
 * @param warnings what was told before the step
 * @param leftOut as {@link channelsLeftOut} gives them
 */
export function withoutLeftOut(warnings: readonly Warning[], leftOut: readonly ChannelOfRun[]): readonly Warning[] {
  if (leftOut.length === 0) return warnings;
  const keyOf = ({ run, channel }: NonNullable<Warning['concerns']>): string => JSON.stringify([run, channel]);
  const gone = new Set(leftOut.map(keyOf));
  return warnings.filter(({ concerns }) => concerns === undefined || !gone.has(keyOf(concerns)));
}

/** Whether a finding speaks of any part of the stretch `from` one time `to` another, in s from the recording's first sample. */
export function touches({ spans }: Finding, from: number, to: number): boolean {
  return spans === undefined || spans.length === 0 || spans.some((span) => span.to >= from && span.from <= to);
}

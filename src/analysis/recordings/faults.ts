import type { Warning } from '../../result/result.ts';
import type { Finding } from '../../readers/recording.ts';
import type { Run } from '../../values/run.ts';
import { tellFinding } from '../messages/recordings.ts';

/** The faults of `runs`, each run's once, as warnings of what is made from them. */
export function faultWarnings(runs: readonly Run[]): Warning[] {
  return [...new Set(runs)].flatMap(({ label, findings }) =>
    findings
      .filter(({ severity }) => severity === 'fault')
      .map((finding) => tellFinding(label, finding, `fault.${finding.code}`)),
  );
}

/** Whether a finding speaks of any part of the stretch `from` one time `to` another, in s from the recording's first sample. */
export function touches({ spans }: Finding, from: number, to: number): boolean {
  return spans === undefined || spans.length === 0 || spans.some((span) => span.to >= from && span.from <= to);
}

import type { Finding } from '../readers/recording.ts';
import type { Run } from '../values/run.ts';
import { runsOf } from '../values/kinds.ts';
import type { Argument, Arguments } from './verb.ts';
import type { Warning } from '../result/result.ts';

/** The faults of the runs behind a call's operands, as warnings of its result. */
export function faultsBehind({ operands }: Arguments): Warning[] {
  const runs = new Set(Object.values(operands).flatMap((given) => given.flatMap(runsBehind)));
  return [...runs].flatMap(({ label, findings }) =>
    findings
      .filter(({ severity }) => severity === 'fault')
      .map(({ code, message }) => ({ code: `fault.${code}`, message: `${label}: ${message}` })),
  );
}

function runsBehind(argument: Argument): readonly Run[] {
  return argument.type === 'value' ? runsOf(argument.value) : [];
}

/** Whether a finding speaks of any part of the stretch from one time to another, in s from the recording's first sample. */
export function touches({ places }: Finding, from: number, to: number): boolean {
  return places === undefined || places.length === 0 || places.some((place) => place.to >= from && place.from <= to);
}

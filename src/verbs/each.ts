import { isJoinable, joined } from '../analysis/joined.ts';
import { isLong } from '../analysis/recordings/longRuns.ts';
import type { Refused } from '../result/result.ts';
import type { ExcludedRun } from '../values/excluded.ts';
import { handsOnExcluded } from '../values/kinds.ts';
import type { RunsValue } from '../values/runs.ts';
import type { Value } from '../values/value.ts';
import { answer, refuse, runsAmong, type Answer, type Arguments, type Context, type Verb } from './verb.ts';

export { inFewLines } from '../analysis/groupedWarnings.ts';
export { joinedWarnings } from '../analysis/joined.ts';
export { withoutLeftOut } from '../analysis/recordings/faults.ts';
export { readingsOf, type ListedRecording, type Listing, type Readings } from '../analysis/recordings/load.ts';

/**
 * The value of a set from those of its runs.
 * @param parts what a verb that goes over runs one by one gave of each, in their order; at least one
 * @param excluded the runs that a sheet leaves out, after the same steps
 */
export function joinedValue(parts: readonly Value[], set: string | undefined, excluded: readonly ExcludedRun[]): Value {
  const value = joined(parts.filter(isJoinable), set);
  return excluded.length > 0 && handsOnExcluded(value) ? { ...value, excluded } : value;
}

/**
 * The verb, seeing to it that the runs left out by a sheet stay with whatever it gives: where it gives runs, each
 * excluded run goes through the same step by itself; other values list them, and are shown with that list.
 */
export function withExcluded(verb: Verb): Verb {
  return {
    ...verb,
    async evaluate(given, context) {
      const found = await verb.evaluate(given, context);
      if (!found.ok || !handsOnExcluded(found.value)) return found;
      const from = source(verb, given);
      if (from === undefined) return found;
      const { excluded } = from;
      if (found.value.kind !== 'runs') return answer({ ...found.value, excluded }, found.warnings);
      const steps = excluded.map((one) => followed(one, verb, { operand: from.operand, given, context }));
      return answer({ ...found.value, excluded: await Promise.all(steps) }, found.warnings);
    },
  };
}

/** The first operand that holds excluded runs. */
function source({ form }: Verb, given: Arguments): { operand: string; excluded: readonly ExcludedRun[] } | undefined {
  for (const { name } of form.operands) {
    const argument = given.operands[name]?.[0];
    if (argument?.type !== 'value' || !handsOnExcluded(argument.value)) continue;
    const { excluded = [] } = argument.value;
    if (excluded.length > 0) return { operand: name, excluded };
  }
  return undefined;
}

/** A call that a run is to go through. */
interface Through {
  /** The name of the operand that the run is to stand for. */
  readonly operand: string;
  readonly given: Arguments;
  readonly context: Context;
}

/** An excluded run after one more step. */
export async function followed(
  { run, ...one }: ExcludedRun,
  verb: Pick<Verb, 'evaluate'>,
  { operand, given, context }: Through,
): Promise<ExcludedRun> {
  if (run === undefined) return { ...one, run };
  const alone: RunsValue = { kind: 'runs', set: undefined, runs: [run] };
  const instead: Arguments = {
    ...given,
    operands: { ...given.operands, [operand]: [{ type: 'value', value: alone, name: undefined }] },
  };
  const found: Answer = await verb.evaluate(instead, context);
  if (!found.ok) return { ...one, run: undefined, obstacle: found.failure.message };
  return found.value.kind === 'runs' ? { ...one, run: found.value.runs[0] } : { ...one, run };
}

/**
 * The verb, refusing where a run behind its operands is too large for memory and it needs all samples at once.
 * @param works the verbs that need not
 */
export function withoutLong(verb: Verb, works: () => readonly string[]): Verb {
  return { ...verb, evaluate: (given, context) => whyTooLong(verb, given, works) ?? verb.evaluate(given, context) };
}

function whyTooLong({ form, takesLong }: Verb, given: Arguments, works: () => readonly string[]): Refused | undefined {
  const needsAll = takesLong === true ? undefined : takesLong === undefined ? form.verb : takesLong(given);
  if (needsAll === undefined) return undefined;
  const run = [...runsAmong(given.operands), ...runsAmong(given.options)].find(isLong);
  if (run === undefined) return undefined;
  const { long, channels, rate, label } = run;
  const seconds = long.recording.sizes.most / channels.length / rate;
  return refuse('run.long', { run: label, verb: needsAll, seconds, works: works() });
}

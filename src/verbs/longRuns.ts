import { isLong } from '../analysis/recordings/longRuns.ts';
import type { Refused } from '../result/result.ts';
import { refuse } from './messages.ts';
import { runsAmong, type Arguments, type Verb } from './verb.ts';

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

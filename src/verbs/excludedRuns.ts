import type { ChosenFile } from './recordings/sheetChoice.ts';
import type { Run } from '../values/run.ts';
import type { RunsValue } from '../values/runs.ts';
import { handsOnExcluded } from '../values/kinds.ts';
import type { ExcludedRun } from '../values/excluded.ts';
import { answer, type Answer, type Context, type Arguments, type Verb } from './verb.ts';
import type { Failure, Warning } from '../result/result.ts';

/** A run that the sheet leaves out, as it was read, or why it could not be. */
export function excludedRun(
  { path, excluded }: ChosenFile,
  label: string,
  run: Run | { readonly ok: false; readonly failure: Failure } | undefined,
): ExcludedRun {
  const why = excluded ?? 'no reason given';
  if (run === undefined) return { label, path, why, run, obstacle: 'its recording is not there' };
  return 'failure' in run
    ? { label, path, why, run: undefined, obstacle: clause(run.failure.message) }
    : { label, path, why, run };
}

/** One sentence that lists what was left out, and why. */
export function excludedWarnings(excluded: readonly ExcludedRun[]): Warning[] {
  if (excluded.length === 0) return [];
  const list = excluded.map(({ label, why }) => `${label} (${why})`).join(', ');
  const count = excluded.length === 1 ? '1 run is' : `${excluded.length} runs are`;
  return [{ code: 'runs.excluded', message: `By the run sheet ${count} left out: ${list}.` }];
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
      const steps = excluded.map((one) => followed(one, verb, from.operand, given, context));
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

/** An excluded run after one more step. */
async function followed(
  { run, ...one }: ExcludedRun,
  verb: Verb,
  operand: string,
  given: Arguments,
  context: Context,
): Promise<ExcludedRun> {
  if (run === undefined) return { ...one, run };
  const alone: RunsValue = { kind: 'runs', set: undefined, runs: [run] };
  const instead: Arguments = {
    ...given,
    operands: { ...given.operands, [operand]: [{ type: 'value', value: alone, name: undefined }] },
  };
  const found: Answer = await verb.evaluate(instead, context);
  if (!found.ok) return { ...one, run: undefined, obstacle: clause(found.failure.message) };
  return found.value.kind === 'runs' ? { ...one, run: found.value.runs[0] } : { ...one, run };
}

const clause = (sentence: string): string => sentence.replace(/\.$/, '');

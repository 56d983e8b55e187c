import type { Warning } from '../../result/result.ts';
import type { Value } from '../../values/value.ts';
import { joinedValue, joinedWarnings, withoutLeftOut } from '../../verbs/each.ts';
import { blamed, type EvaluationContext, type PlacedFailure } from '../evaluation.ts';
import type { Chain } from './chain.ts';
import { Making, type Made, type MakingOptions } from './making.ts';
import type { Told } from './part.ts';

/** What came of a chain: the value of the set, or why there is none, and what is told of the expression's own steps. */
export type MadeOf = { readonly warnings: readonly Warning[]; readonly computed: boolean } & (
  { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly failure: PlacedFailure }
);

/** Takes the recordings of a chain through its steps and joins what they give. */
export async function madeOf(chain: Chain, context: EvaluationContext, options: MakingOptions = {}): Promise<MadeOf> {
  const made = await new Making(chain, context, options).all();
  const { computed, failure, levels } = made;
  // What was not done with all recordings is not told.
  const whole = failure === undefined ? levels : Math.min(levels, failure.level);
  const apart = whyNoSet(chain, made, whole);
  if (apart !== undefined) return { ok: false, ...apart, warnings: toldBy(chain, made, apart.level), computed };
  const warnings = toldBy(chain, made, whole);
  if (failure !== undefined) return { ok: false, failure: failure.failure, warnings, computed };
  const { obstacle, beside = [], set, base } = chain;
  if (obstacle !== undefined) return { ok: false, failure: obstacle, warnings: [...warnings, ...beside], computed };
  const values = made.parts.flatMap((part) => part?.value ?? []);
  const excluded = [...base.lost, ...made.parts.flatMap((part) => part?.excluded ?? [])];
  return { ok: true, value: joinedValue(values, set, excluded), warnings, computed };
}

/** The first step whose recordings don't make one set. */
function whyNoSet(
  { steps }: Chain,
  { parts }: Made,
  levels: number,
): { readonly failure: PlacedFailure; readonly level: number } | undefined {
  for (const [at, { verb, node }] of steps.entries()) {
    const level = at + 1;
    if (verb.common === undefined || level >= levels) continue;
    const found = parts.flatMap((part) => (part === undefined ? [] : (part.told[level].common ?? [])));
    const refusal = verb.common.whyNot(found);
    if (refusal !== undefined)
      return { failure: { ...refusal.failure, place: blamed(node, refusal.failure.at) }, level };
  }
  return undefined;
}

/**
 * What is told of so many first levels of a chain, of the expression's own alone, and not of channels that a later one
 * of them left out.
 */
function toldBy({ base, steps }: Chain, { parts }: Made, levels: number): Warning[] {
  const each = (level: number): Told[] => parts.flatMap((part) => (part === undefined ? [] : [part.told[level]]));
  const warningsAt = (level: number): Warning[] => {
    const own = each(level);
    return [...joinedWarnings(own.flatMap(({ warnings }) => warnings)), ...own.flatMap(({ faults }) => faults)];
  };
  let warnings: readonly Warning[] = base.isOwn && levels > 0 ? [...base.before, ...warningsAt(0), ...base.after] : [];
  for (const [at, step] of steps.entries()) {
    const level = at + 1;
    if (level > levels) break;
    // The arguments were evaluated whether the step itself came off or not.
    if (step.isOwn) warnings = [...warnings, ...step.warnings];
    if (level === levels) break;
    const leftOut = each(level).flatMap((one) => one.leftOut ?? []);
    warnings = [...withoutLeftOut(warnings, leftOut), ...(step.isOwn ? warningsAt(level) : [])];
  }
  return [...warnings];
}

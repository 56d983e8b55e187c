import { isAway } from '../../values/away.ts';
import type { Run } from '../../values/run.ts';
import type { Arguments, ByRuns, OfRun, Verb } from '../../verbs/verb.ts';
import type { Call } from '../evaluation.ts';
import { chainTo, isExpression, withOwnSteps, type Asking } from './chain.ts';
import { Making } from './making.ts';

/** Whether a verb looks at the samples of the runs behind what it is given. */
export const needsSamples = ({ needsNoSamples }: Verb): boolean => needsNoSamples !== true;

/** Whether samples of any run behind arguments are away. */
export const isAnyAway = ({ operands, options }: Arguments): boolean =>
  [...Object.values(operands), ...Object.values(options)]
    .flat()
    .some((argument) => argument?.type === 'value' && isAway(argument.value));

/**
 * What the runs that stand in a call as sets give by themselves, each recording taken as far as the call asks for;
 * undefined where there is one that does not come so far, of which the call then tells.
 */
export async function madeByRuns(
  node: Call,
  { operands, options }: Arguments,
  by: ByRuns,
  asking: Asking,
): Promise<ReadonlyMap<Run, OfRun> | undefined> {
  const all = new Map<Run, OfRun>();
  const slots = [...Object.entries(operands), ...Object.entries(options)];
  for (const [slot, list = []] of slots)
    for (const [at, argument] of list.entries()) {
      if (argument.type !== 'value' || argument.value.kind !== 'runs') continue;
      const of = (node.operands[slot] ?? node.options[slot])[at];
      const chain = isExpression(of) ? await chainTo(of, asking) : undefined;
      if (chain === undefined || chain.obstacle !== undefined) return undefined;
      const { context } = asking;
      const own = withOwnSteps(chain, node, (through) => by(slot, through), context);
      const { parts, failure } = await new Making(own, context).all();
      if (failure !== undefined) return undefined;
      const first = chain.steps.length + 1;
      const made = parts.flatMap((part): OfRun[] =>
        part?.value === undefined
          ? []
          : [{ value: part.value, told: part.told.slice(first).map(({ warnings }) => warnings) }],
      );
      if (made.length !== argument.value.runs.length) return undefined;
      argument.value.runs.forEach((run, k) => all.set(run, made[k]));
    }
  return all;
}

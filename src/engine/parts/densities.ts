import { isAway } from '../../values/away.ts';
import type { Channel } from '../../values/run.ts';
import type { Densities } from '../../values/ports.ts';
import type { WindowValue } from '../../values/window.ts';
import { densityOf } from '../../verbs/spectra/spectrum.ts';
import type { Arguments, Verb } from '../../verbs/verb.ts';
import type { Call } from '../evaluation.ts';
import { chainTo, isExpression, withDensities, type Asking } from './chain.ts';
import { Making } from './making.ts';

/** Whether a verb looks at the samples of the runs behind what it is given. */
export const needsSamples = ({ needsNoSamples }: Verb): boolean => needsNoSamples !== true;

/** Whether samples of any run behind arguments are away. */
export const isAnyAway = ({ operands, options }: Arguments): boolean =>
  [...Object.values(operands), ...Object.values(options)]
    .flat()
    .some((argument) => argument?.type === 'value' && isAway(argument.value));

/**
 * The densities of all runs that stand in a call as sets, by their channels, each recording taken as far by itself;
 * undefined where there is one that they can't be made of, of which the call then tells.
 */
export async function densitiesOf(
  node: Call,
  { operands, options }: Arguments,
  window: WindowValue,
  asking: Asking,
): Promise<Densities | undefined> {
  const all = new Map<Channel, ReturnType<typeof densityOf>>();
  const slots = [...Object.entries(operands), ...Object.entries(options)];
  for (const [name, list = []] of slots)
    for (const [at, argument] of list.entries()) {
      if (argument.type !== 'value' || argument.value.kind !== 'runs') continue;
      const of = (node.operands[name] ?? node.options[name])[at];
      const chain = isExpression(of) ? await chainTo(of, asking) : undefined;
      if (chain === undefined || chain.obstacle !== undefined) return undefined;
      const { context } = asking;
      const { parts, failure } = await new Making(withDensities(chain, node, window, context), context).all();
      if (failure !== undefined) return undefined;
      const entries = parts.flatMap((part) => (part?.value?.kind === 'spectrum' ? part.value.entries : []));
      const channels = argument.value.runs.flatMap((run) => run.channels);
      if (entries.length !== channels.length) return undefined;
      channels.forEach((channel, k) => all.set(channel, densityOf(entries[k])));
    }
  return all;
}

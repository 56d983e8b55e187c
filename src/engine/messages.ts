import { isOutOfMemory, isSystemRefusal, wordsOf } from '../result/environment.ts';
import { messages, type Sentences } from '../result/messages.ts';
import type { Refused } from '../result/result.ts';

/** Why a statement has no value, besides what is wrong with its text or its data. */
export interface EngineFacts {
  'name.failed': { readonly name: string };
  /** The kind in words. */
  'quantity.expected': { readonly kind: string };
  'statement.empty': object;
  'call.later': { readonly verb: string };
  cancelled: object;
  /** `system`: the code, as `EIO`. */
  'machine.refused': { readonly path: string | undefined; readonly system: string };
  'machine.memory': object;
  internal: { readonly verb: string; readonly reason: string };
  'engine.failed': { readonly reason: string };
}

const sentences: Sentences<EngineFacts> = {
  'name.failed': ({ name }) => `${name} has no value, because its own statement failed.`,
  'quantity.expected': ({ kind }) => `Arithmetic works on quantities, and this is ${kind}.`,
  'statement.empty': () => 'Nothing to do here.',
  'call.later': ({ verb }) => `${verb} has not been run yet.`,
  cancelled: () => 'The run was stopped.',
  'machine.refused': ({ path, system }) =>
    `The system refused ${path === undefined ? 'an operation on a file' : `"${path}"`}: it says ${system}; run the cell again once that is settled.`,
  'machine.memory': () =>
    'The memory of this machine ran out: load fewer or shorter files, or close what else is open.',
  'engine.failed': ({ reason }) => `This is a fault of Washboard itself, not of your notebook: ${reason}.`,
  internal: ({ verb, reason }) => `${verb} failed by a fault of Washboard itself, not of your notebook: ${reason}.`,
};

export const { tell, refuse } = messages(sentences);

/** What an exception tells: a refusal of the machine as such, anything else as a fault of ours. */
export function refuseFault(error: unknown, verb?: string): Refused {
  if (isSystemRefusal(error)) return refuse('machine.refused', { path: error.path, system: error.code });
  if (isOutOfMemory(error)) return refuse('machine.memory', {});
  const reason = wordsOf(error);
  return verb === undefined ? refuse('engine.failed', { reason }) : refuse('internal', { verb, reason });
}

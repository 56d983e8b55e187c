import { messages, type Sentences } from '../result/messages.ts';

/** Why a statement has no value, besides what is wrong with its text or its data. */
export interface EngineFacts {
  'name.failed': { readonly name: string };
  /** The kind in words. */
  'quantity.expected': { readonly kind: string };
  'statement.empty': object;
  'call.later': { readonly verb: string };
  cancelled: object;
  internal: { readonly verb: string; readonly reason: string };
}

const sentences: Sentences<EngineFacts> = {
  'name.failed': ({ name }) => `${name} has no value, because its own statement failed.`,
  'quantity.expected': ({ kind }) => `Arithmetic works on quantities, and this is ${kind}.`,
  'statement.empty': () => 'Nothing to do here.',
  'call.later': ({ verb }) => `${verb} has not been run yet.`,
  cancelled: () => 'The run was stopped.',
  internal: ({ verb, reason }) => `${verb} failed by a fault of Washboard itself, not of your notebook: ${reason}.`,
};

export const { tell, refuse } = messages(sentences);

import type { CheckedNotebook } from '../check.ts';
import { caretAt } from './caret.ts';
import { functionSynopsis, synopsisOf, type Synopsis } from './synopsis.ts';

/** What a call looks like, with the part of it that the caret is in. */
export interface Signature {
  readonly synopsis: Synopsis;
  /** Markdown. */
  readonly doc: string;
  /** Index into the synopsis's parts; undefined where none is likely. */
  readonly active: number | undefined;
}

/** The form of the verb or function whose arguments are being written. */
export function signatureAt(notebook: CheckedNotebook, cell: number, offset: number): Signature | undefined {
  const { situation } = caretAt(notebook, cell, offset);
  if (situation.type === 'argument' || situation.type === 'text') {
    const first = situation.expecting.find(({ slot }) => slot !== undefined) ?? situation.expecting.at(0);
    if (!first) return undefined;
    const { form } = first.arrangement;
    const synopsis = synopsisOf(form);
    const { slot } = first;
    const active = slot
      ? synopsis.parts.findIndex((part) => part.slot === slot.name && part.option === slot.option)
      : -1;
    return { synopsis, doc: form.summary, active: active < 0 ? undefined : active };
  }
  if (situation.type !== 'value' || !situation.call) return undefined;
  const form = notebook.vocabulary.functions.get(situation.call.name.text);
  if (!form) return undefined;
  const synopsis = functionSynopsis(form);
  const argument = situation.call.arguments.length - 1;
  return { synopsis, doc: form.summary, active: Math.min(argument, synopsis.parts.length - 1) };
}

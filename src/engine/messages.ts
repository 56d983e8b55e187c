import { isOutOfMemory, isSystemRefusal, wordsOf } from '../result/environment.ts';
import { cellWords, type CellName } from '../language/cellName.ts';
import { messages, type Sentences } from '../result/messages.ts';
import type { Refused } from '../result/result.ts';

/** Why a statement has no value, besides what is wrong with its text or its data. */
export interface EngineFacts {
  /** Where the statement stands that binds it, for a reader. */
  'name.failed': { readonly name: string; readonly cell?: CellName; readonly line?: number };
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
  /** `verb` is empty where the number itself was bound to the name. */
  'handle.gone': { readonly verb: string; readonly name: string; readonly text: string };
  /** Units as they are spelled, now and before. */
  'handle.unit': { readonly text: string; readonly unit: string; readonly before: string };
  'making.gone': object;
  'making.locked': { readonly why: string };
  'making.short': { readonly what: 'trim' | 'band' | 'range' | 'mark' };
  /** What would be wrong with the text, in a sentence. */
  'making.unfit': { readonly problem: string };
  'prose.differs': {
    readonly written: string;
    readonly unit: string;
    readonly now: string;
    readonly expression: string;
  };
  'prose.number': { readonly expression: string };
  /** The kind in words. */
  'prose.kind': { readonly expression: string; readonly kind: string };
  'prose.unit': { readonly unit: string };
  'prose.dimension': { readonly expression: string; readonly unit: string; readonly own: string };
}

const sentences: Sentences<EngineFacts> = {
  'name.failed': ({ name, cell, line }) =>
    cell === undefined
      ? `${name} has no value, because its own statement failed.`
      : `${name} has no value, because its own statement failed: see ${cellWords(cell)}, line ${line}.`,
  'quantity.expected': ({ kind }) => `Arithmetic works on quantities, and this is ${kind}.`,
  'statement.empty': () => 'Nothing to do here.',
  'call.later': ({ verb }) => `${verb} has not been run yet.`,
  cancelled: () => 'The run was stopped.',
  'machine.refused': ({ path, system }) =>
    `The system refused ${path === undefined ? 'an operation on a file' : `"${path}"`}: it says ${system}; run the cell again once that is settled.`,
  'machine.memory': () =>
    'The memory of this machine ran out: load fewer or shorter files, or close what else is open.',
  'engine.failed': ({ reason }) => `This is a fault of Washboard itself, not of your notebook: ${reason}.`,
  'handle.gone': ({ verb, name, text }) =>
    `The ${text} of ${verb === '' ? name : verb} no longer stands where this chart drew it: run the cell of the chart again, then move it.`,
  'handle.unit': ({ text, unit, before }) =>
    `The number is in ${unit || 'no unit'} by now (${text}), and was in ${before || 'no unit'} when this chart was drawn: run the cell of the chart again, then move it.`,
  'making.gone': () =>
    'What this chart shows no longer stands in its cell as it did: run the cell again, then choose the stretch again.',
  'making.locked': ({ why }) => `Nothing was written: ${why}.`,
  'making.short': ({ what }) =>
    what === 'trim'
      ? 'The stretch holds too little of the recording to be trimmed to: choose a longer one.'
      : 'The stretch is shorter than this chart can tell: zoom in, or choose a longer one.',
  'making.unfit': ({ problem }) => `Nothing was written, because the cell would not be understood then: ${problem}`,
  internal: ({ verb, reason }) => `${verb} failed by a fault of Washboard itself, not of your notebook: ${reason}.`,
  'prose.differs': ({ written, unit, now, expression }) => {
    const behind = unit === '' ? '' : unit === '°' ? unit : ` ${unit}`;
    return `The text says ${written}${behind}, and ${expression} is ${now}${behind}.`;
  },
  'prose.number': ({ expression }) =>
    `No number stands before <!-- = ${expression} --> on its line: write one, with its unit, right before it.`,
  'prose.kind': ({ expression, kind }) =>
    `${expression} is ${kind} and no number: name one of its figures, as in C.change.`,
  'prose.unit': ({ unit }) =>
    `"${unit}" is no known unit: put the mark right behind the number where no unit is meant.`,
  'prose.dimension': ({ expression, unit, own }) =>
    `${expression} is ${own === '' ? 'a plain number' : `in ${own}`}, which can't be written in ${unit}.`,
};

export const { tell, refuse } = messages(sentences);

/** What an exception tells: a refusal of the machine as such, anything else as a fault of ours. */
export function refuseFault(error: unknown, verb?: string): Refused {
  if (isSystemRefusal(error)) return refuse('machine.refused', { path: error.path, system: error.code });
  if (isOutOfMemory(error)) return refuse('machine.memory', {});
  const reason = wordsOf(error);
  return verb === undefined ? refuse('engine.failed', { reason }) : refuse('internal', { verb, reason });
}

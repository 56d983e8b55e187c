import { messages, type Sentences } from '../result/messages.ts';
import { toMillisecond } from '../analysis/amounts.ts';

/** What can be wrong with a call's arguments taken together. Times are in s. */
export interface VerbFacts {
  'operand.missing': { readonly verb: 'load' | 'trim' };
  'option.value': { readonly option: 'decimal' };
  /** `range`: a range and options, else all three options. */
  'trim.twice': { readonly range: boolean };
  'range.backward': { readonly from: number; readonly to: number };
  'sheet.missing': { readonly option: 'where' | 'including' };
}

const sentences: Sentences<VerbFacts> = {
  'operand.missing': ({ verb }) =>
    verb === 'trim'
      ? 'trim needs the stretch to keep, as in "trim runs 5..80 s".'
      : 'load needs files, as in load "raw/*.csv", or a run sheet, as in load sheet "runs.csv".',
  'option.value': ({ option }) => `The ${option} mark is "." or ",".`,
  'trim.twice': ({ range }) =>
    range
      ? 'Give the stretch once: a range, or from, to and length.'
      : 'Two of from, to and length settle the stretch: leave one out.',
  'range.backward': ({ from, to }) =>
    `The stretch ends (${toMillisecond(to)}) before it begins (${toMillisecond(from)}).`,
  'sheet.missing': ({ option }) =>
    option === 'where'
      ? 'where chooses rows of a run sheet: name one, as in sheet "runs.csv".'
      : 'Only a run sheet excludes runs: name one, as in sheet "runs.csv".',
};

export const { tell, refuse } = messages(sentences);

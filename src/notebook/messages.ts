import { messages } from '../result/messages.ts';

/** Lines are counted from 1. */
export interface NotebookFacts {
  'not-utf8': { line: number; utf16: boolean };
  conflict: { line: number; mark: string };
  'nested-cell': { line: number };
  'unclosed-cell': { line: number };
  'misspelt-cell': { line: number; word: string };
  'record.json': object;
  'record.object': object;
  'record.version': { version: unknown };
  'record.incomplete': object;
  'record.tool': { recorded: string; now: string };
}

/** What is said of a notebook's file, of its blocks, and of its record. */
export const { tell, refuse } = messages<NotebookFacts>({
  'not-utf8': ({ line, utf16 }) =>
    utf16
      ? 'The file is UTF-16 text; a notebook is UTF-8. Open it as text and save it with the encoding UTF-8.'
      : `Line ${line} is not valid UTF-8, so the file cannot be a notebook without losing bytes. ` +
        'Open it as text, with the encoding that it was written in, and save it as UTF-8.',
  conflict: ({ line, mark }) =>
    `Line ${line} is a mark of an unfinished merge (${mark}). ` +
    'Open the file as text or in the merge editor, keep one side of each conflict, and open it again.',
  'nested-cell': ({ line }) =>
    `The washboard block on line ${line} stands inside a list or a quote, so it is text and does not run; ` +
    'move it out to the left margin to make it a cell.',
  'unclosed-cell': ({ line }) =>
    `The cell that begins on line ${line} is never closed, so it reaches to the end of the file.`,
  'misspelt-cell': ({ line, word }) =>
    `The block on line ${line} is called "${word}"; only "washboard", in small letters, makes a cell that runs.`,
  'record.json': () => 'the record is no JSON (a merge may have left marks in it); write it anew with `record`.',
  'record.object': () => 'the record holds no object; write it anew with `record`.',
  'record.version': ({ version }) =>
    `the record has version ${JSON.stringify(version)}, and only version 1 is known here.`,
  'record.incomplete': () => 'the record is not complete; write it anew with `record`.',
  'record.tool': ({ recorded, now }) =>
    `The record was written by ${recorded}, and this is ${now}: what differs may come from the version.`,
});

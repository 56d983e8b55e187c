import { page, type MessagePage } from '../result/pages.ts';
import type { NotebookFacts } from './messages.ts';

/** Codes of a notebook’s file; those of a record are told by the command that reads it. */
type OfFiles = 'not-utf8' | 'conflict' | 'nested-cell' | 'unclosed-cell' | 'misspelt-cell';

const cell = '```washboard\nx = 2 mm\n```';

/** Of a notebook’s file as it is opened. The examples are text of Markdown. */
export const notebookPages: Readonly<Record<OfFiles & keyof NotebookFacts, MessagePage>> = {
  'not-utf8': page(
    'Text in another encoding',
    'To show it, bytes would have to be lost. An editor of text opens it with the encoding that it was written in and saves it as UTF-8.',
    'Messen hei\uFFFDt, Mist messen.',
    'Messen heißt, Mist messen.',
  ),
  conflict: page(
    'Marks of an unfinished merge',
    'Both sides of each conflict still stand in the file, and would run one after the other.',
    '<<<<<<< ours\nWith foam.\n=======\nWith gel.\n>>>>>>> theirs',
    'With foam.',
  ),
  'nested-cell': page(
    'A block inside a list or a quote',
    'A cell stands at the left margin; elsewhere it is text that shows a cell.',
    `> ${cell.replaceAll('\n', '\n> ')}`,
    cell,
  ),
  'unclosed-cell': page(
    'A cell that is never closed',
    'All that follows is taken as its text.',
    cell.slice(0, -4),
    cell,
  ),
  'misspelt-cell': page(
    'A block that is nearly called washboard',
    'It is text and does not run.',
    cell.replace('washboard', 'Washboard'),
    cell,
  ),
};

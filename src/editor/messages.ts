import type { Change } from '../engine/ingredients.ts';
import { messages } from '../result/messages.ts';
import { counted, listed } from '../result/words.ts';

interface Facts {
  'notebook.unsaved': object;
  'engine.stopped': object;
  'engine.fault': object;
  'engine.ended': { exitCode: number };
  'cell.stale': { changes: readonly Change[] };
  'cells.stale': { count: number };
  'cells.stale-run': object;
  'cell.earlier': object;
  'rename.nothing': object;
  'sheet.recordings': object;
  'load.nowhere': object;
  'load.outside': object;
  'load.named': object;
  'handle.earlier': object;
  'handle.edited': object;
  'handle.edit': object;
  'prose.written': { written: number; wrong: number; unknown: number };
  'prose.nothing': object;
  'tables.none': object;
  'files.written': { count: number; folder: string };
  'statements.failed': { notebook: string };
  'record.missing': { notebook: string };
  'git.untrusted': object;
  'git.elsewhere': object;
  'product.elsewhere': object;
}

/** What the editor's own parts say; what runs and what is checked is worded where it is found. */
const { tell } = messages<Facts>({
  'notebook.unsaved': () => 'Save the notebook first: the paths of raw files are relative to its folder.',
  'engine.stopped': () => 'The engine was stopped.',
  'engine.fault': () => 'Washboard could not run a cell; what went wrong stands in its log.',
  'engine.ended': ({ exitCode }) =>
    `The engine ended unexpectedly (code ${exitCode}); running the cell again starts it anew.`,
  'cells.stale': ({ count }) => `${counted(count, 'cell')} out of date`,
  'cells.stale-run': () => 'What these cells use has changed since they ran. Click to run them.',
  'cell.stale': ({ changes }) =>
    changes.length === 0
      ? 'Out of date: something that this cell uses has changed.'
      : `Out of date: ${listed(changes.map(changeWords), 'and', mostChanges)}.`,
  'cell.earlier': () =>
    'This is what the cell showed when it was last run. Its text, what it uses and the raw files are as they were then.',
  'rename.nothing': () => 'Only a name that a statement binds can be renamed.',
  'handle.earlier': () => 'This chart is shown from an earlier run: run its cell, then move it.',
  'handle.edited': () => 'The number has been edited since it was moved, so nothing was taken back.',
  'handle.edit': () => 'The editor refused the change of the cell; it may be open elsewhere, or read-only.',
  'sheet.recordings': () => 'No recordings lie in this folder.',
  'load.nowhere': () => 'No notebook of ours is open to load recordings in: open one, or start one from these files.',
  'load.outside': () =>
    'These recordings lie outside of the project folder, where a notebook cannot read: copy them into it first.',
  'load.named': () =>
    "A notebook can't write a name with quotes, backslashes, line ends, control characters or marks that turn the writing around: give these recordings plain names first.",
  'prose.written': ({ written, wrong, unknown }) =>
    [
      written === 0
        ? 'No number in the prose differs.'
        : `${counted(written, 'number')} written as the results are now.`,
      wrong === 0 ? '' : `${counted(wrong, 'number')} can't be told; see the problems.`,
      unknown === 0
        ? ''
        : `${counted(unknown, 'number')} ${unknown === 1 ? 'waits for its' : 'wait for their'} cells to be run.`,
    ]
      .filter((part) => part !== '')
      .join(' '),
  'prose.nothing': () => 'No result is known yet: run the cells first.',
  'tables.none': () => 'The notebook shows no tables.',
  'files.written': ({ count, folder }) => `${counted(count, 'file')} written into ${folder}.`,
  'statements.failed': ({ notebook }) => `Some statements of ${notebook} failed; what was made says which.`,
  'record.missing': ({ notebook }) => `${notebook} has no record yet: write one with the command Record.`,
  'git.elsewhere': () =>
    'Git is asked only of a folder on a disk: open the folder in a desktop editor, or hold the notebook against the record beside it with Verify.',
  'product.elsewhere': () =>
    'The command line, which writes reports, figures, tables and records, needs a folder on a disk: open it in a desktop editor, or run "washboard" there.',
  'git.untrusted': () => 'Git is asked only in a workspace that you trust: trust it, then ask again what changed.',
});

/** The sentence alone: the editor takes nothing else. */
export const sentence = <Code extends keyof Facts>(code: Code, facts: Facts[Code]): string => tell(code, facts).message;

/** An error, whose sentence the editor shows where the call was made. */
export const errorOf = <Code extends keyof Facts>(code: Code, facts: Facts[Code]): Error =>
  new Error(sentence(code, facts));

/** So many changes are named. */
const mostChanges = 3;

function changeWords(change: Change): string {
  switch (change.what) {
    case 'file':
      return `${change.path} changed`;
    case 'new file':
      return `${change.path} is new`;
    case 'lost file':
      return `${change.path} is gone`;
    case 'history':
      return "the project's commit changed";
    case 'text':
      return `${cellWords(change)} changed`;
    case 'step':
      return `${change.verb} of ${cellWords(change)} changed`;
  }
}

const cellWords = ({ cell: { number, remark }, own }: Extract<Change, { what: 'text' | 'step' }>): string =>
  own ? 'this cell' : remark === '' ? `cell ${number}` : `cell "${remark}"`;

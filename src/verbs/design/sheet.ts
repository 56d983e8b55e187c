import { operand, textOf, type Verb } from '../verb.ts';
import { sheetIn } from '../../analysis/recordings/sheetFile.ts';
import { refused, success } from '../../result/result.ts';

export const sheet: Verb = {
  form: {
    verb: 'sheet',
    summary: 'Reads a run sheet and shows it.',
    help: 'A run sheet is a CSV file beside the recordings, with one row a run. Its columns: `file` (relative to the sheet), `condition`, `order` (place in the order of the runs, from 1), `pair` and `day` (or `session`) where the test was laid out in them, `date`, `speed`, `mass`, `pressure` (a unit stands in brackets after the name: `speed (m/s)`), `note`, `excluded` (yes or no) and `why`; any others are kept. `load sheet "runs.csv"` reads the recordings that it lists; with `where condition foam` only those rows.',
    operands: [{ name: 'file', doc: 'The run sheet.', accepts: [{ type: 'text', role: 'files' }] }],
    options: [],
    gives: 'sheet',
    examples: ['sheet "raw/runs.csv"'],
  },
  async sources(given, files) {
    const listed = await files.expand(textOf(operand(given, 'file')) ?? '');
    if (!listed.ok) return refused({ ...listed.failure, at: 'file' });
    return success(listed.value.map((path) => ({ path })));
  },
  async evaluate(given, { files }) {
    return sheetIn(textOf(operand(given, 'file')) ?? '', files, 'file');
  },
};

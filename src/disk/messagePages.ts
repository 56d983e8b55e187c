import { page, type MessagePage } from '../result/pages.ts';
import type { DiskFacts } from './messages.ts';

/** Codes that a cell may be told of; the page of `file.missing` stands among those of the text. */
type OfCells = 'file.outside' | 'file.folder' | 'file.special' | 'file.unlisted';

const right = 'load "raw/brick-foam-1.csv.gz"';

/** Of files that a cell may not read. */
export const diskPages: Readonly<Record<OfCells & keyof DiskFacts, MessagePage>> = {
  'file.outside': page(
    'A file outside the project',
    'Raw files lie in the project folder and are named relative to the notebook, so that the study runs elsewhere too.',
    'load "../../elsewhere/run.csv"',
    right,
  ),
  'file.folder': page('A folder', 'A pattern names the files of a folder.', 'load "raw"', right),
  'file.special': page(
    'No file',
    'A pipe or a device can be read once at most, and a study must be able to run again.',
    'load "raw/pipe"',
    right,
  ),
  'file.unlisted': page(
    'A folder that cannot be listed',
    'A set that lacks the recordings of a folder whose permissions forbid to list it would be another set, and nobody would know.',
    'load "*/brick-foam-*.csv.gz"',
    'load "raw/brick-foam-*.csv.gz"',
  ),
};

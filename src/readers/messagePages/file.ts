import type { FileFacts } from '../messages/file.ts';
import { example, sound, type Pages } from './page.ts';

const sheet = 'file,condition,speed (m/s)\nfoam-1.csv,foam,1.2\ngel-1.csv,gel,1.3';
const withSheet = 'load sheet "runs.csv"';

export const filePages: Pages<FileFacts> = {
  memory: {
    title: 'Not enough memory',
    why: 'Each number takes 8 bytes while it is worked on, and this machine has not that much left.',
    wrong: example('a text of some gigabytes'),
    right: example('the same in files of an hour each', 'load "run-*.csv"'),
  },
  empty: {
    title: 'The file is empty',
    why: 'There is no byte in the file, or `skip` passes over all of its lines.',
    wrong: example(sound, 'load "run.csv" skip 40'),
    right: example(sound),
  },
  cancelled: {
    title: 'Reading was stopped',
    why: 'The cell was interrupted before the file had been read to its end. Run it again.',
    wrong: example('a large file, interrupted'),
    right: example('the same, left to run'),
  },
  'file-changed': {
    title: 'The file changed while it was read',
    why: 'Another program wrote to it, as a logger or a copy that is still being written does.',
    wrong: example('a file that is still being copied'),
    right: example('the same when the copy is complete'),
  },
  'file-unreadable': {
    title: 'The system refuses to read the file',
    why: 'Its permissions or a fault of the disk are in the way; the code is the system’s own.',
    wrong: example('a file that belongs to another user'),
    right: example('a copy that you may read'),
  },
  'packed-twice': {
    title: 'Packed twice',
    why: 'A gzip file may hold a text, a WAV file or a Universal File, but no other packed file.',
    wrong: example('run.csv.gz.gz', 'load "run.csv.gz.gz"'),
    right: example('run.csv.gz', 'load "run.csv.gz"'),
  },
  'damaged-gzip': {
    title: 'A damaged gzip file',
    why: 'The checksum or the end of the packed file is not as it must be, so its numbers can’t be trusted.',
    wrong: example('run.csv.gz, cut short by a broken transfer', 'load "run.csv.gz"'),
    right: example('run.csv.gz, copied again from the logger', 'load "run.csv.gz"'),
  },
  'expands-too-far': {
    title: 'A packed file that grows too far',
    why: 'Texts of numbers pack to a third or a quarter; one that grows hundreds of times is no recording.',
    wrong: example('60 MB of zeros, packed into 60 kB', 'load "run.csv.gz"'),
    right: example('the part with the run, unpacked'),
  },
  'foreign-format': {
    title: 'A format that is not read',
    why: 'Text, WAV, Parquet and Universal Files (dataset 58) are read, and gzip of them but Parquet.',
    wrong: example('PK… (a workbook)', 'load "run.xlsx"'),
    right: example('the sheet saved as CSV'),
  },
  'damaged-parquet': {
    title: 'A damaged Parquet file',
    why: 'The file is cut short, or uses a part of the format that the reader does not know.',
    wrong: example('run.parquet, cut short', 'load "run.parquet"'),
    right: example('run.parquet, exported again', 'load "run.parquet"'),
  },
  'damaged-page': {
    title: 'A damaged page of a Parquet file',
    why: 'Some programs write a checksum beside each page of a column. Where the page has other bytes, a disk or a copy changed them, and its numbers can’t be trusted.',
    wrong: example('run.parquet, a byte of which changed on the disk', 'load "run.parquet"'),
    right: example('run.parquet, copied again', 'load "run.parquet"'),
  },
  'damaged-wav': {
    title: 'A damaged WAV file',
    why: 'It ends before its samples, or does not say in which format they are.',
    wrong: example('RIFF… without a data chunk', 'load "run.wav"'),
    right: example('run.wav, copied again from the recorder', 'load "run.wav"'),
  },
  'wav-format': {
    title: 'A format of samples that is not read',
    why: 'Whole numbers of 8, 16, 24 and 32 bits and floating point of 32 and 64 are; compressed sound is not.',
    wrong: example('run.wav with ADPCM', 'load "run.wav"'),
    right: example('run.wav with PCM of 24 bits', 'load "run.wav"'),
  },
  'wav-formats-differ': {
    title: 'Two formats in one WAV file',
    why: 'One format chunk stands before the samples and says how many channels they have, of how many bits and at which rate. Where a second one says otherwise, half of such readings would be noise or at a wrong rate.',
    wrong: example('RIFF… fmt (400 Hz) … fmt (800 Hz) … data …', 'load "run.wav"'),
    right: example('RIFF… fmt (400 Hz) … data …', 'load "run.wav"'),
  },
  'wav-list': {
    title: 'Samples in a list of pieces',
    why: 'A list of the kind `wavl` holds chunks of samples and chunks that state a silence, of which nobody knows the readings.',
    wrong: example('RIFF… LIST (wavl: data, slnt, data)', 'load "run.wav"'),
    right: example('RIFF… data …', 'load "run.wav"'),
  },
  'damaged-universal': {
    title: 'A Universal File that is cut short',
    why: 'Each dataset stands between two lines that hold only -1; after the last one the second is missing.',
    wrong: example('    -1\n    58\nhub z\n…', 'load "run.unv"'),
    right: example('    -1\n    58\nhub z\n…\n    -1', 'load "run.unv"'),
  },
  'universal-binary': {
    title: 'Binary numbers of another kind',
    why: 'Dataset 58b holds its numbers as bytes, which are read where they are those of IEEE 754 (form 2).',
    wrong: example('    -1\n    58b     1     1 …\n    -1', 'load "run.unv"'),
    right: example('    -1\n    58b     1     2 …\n    -1', 'load "run.unv"'),
  },
  'universal-format': {
    title: 'A function that is not read',
    why: 'Of dataset 58 the functions of time that are real are read.',
    wrong: example('record 7: 5 600 1 0.0 2.5e-3 (complex)', 'load "run.unv"'),
    right: example('record 7: 2 600 1 0.0 2.5e-3 (real)', 'load "run.unv"'),
  },
  'universal-differ': {
    title: 'Functions of different rates or lengths',
    why: 'The channels of a recording share one clock.',
    wrong: example('600 values at 400 Hz, then 1200 values at 800 Hz', 'load "run.unv"'),
    right: example('one file for each rate', 'load "run-400.unv"'),
  },
  'no-time-response': {
    title: 'A Universal File without time histories',
    why: 'It holds geometry, spectra or other functions, but no time response.',
    wrong: example('    -1\n  2411\n…\n    -1', 'load "run.unv"'),
    right: example('    -1\n    58\n…\n    -1', 'load "run.unv"'),
  },
  'direction-reversed': {
    title: 'Functions turned around',
    why: 'A function along a negative axis is read with its sign turned, so that it can be compared with others.',
    wrong: example('response direction -3', 'load "run.unv"'),
    right: example('response direction 3', 'load "run.unv"'),
  },
  'too-many-columns': {
    title: 'Too many columns',
    why: 'No logger writes thousands of columns: a line end is probably missing, or the delimiter is another.',
    wrong: example('0.01,0.02,0.01, … (5000 columns)'),
    right: example(sound),
  },
  'too-many-samples': {
    title: 'Too many numbers',
    why: 'A recording may have as many numbers as fit into the memory of an ordinary machine.',
    wrong: example('two weeks at 1 kHz in one file'),
    right: example('the same in files of an hour each', 'load "run-*.csv"'),
  },
  'parts-unfit': {
    title: 'Parts that make no recording',
    why: 'A file that would take more memory than is given to one is read part by part, which needs one rate, one set of columns and a time that goes forward.',
    wrong: example('two weeks at 1 kHz in one file, with a clock that was set back', 'load "run.csv"'),
    right: example('the same in files of an hour each', 'load "run-*.csv"'),
  },
  'read-in-parts': {
    title: 'Read in parts',
    why: 'The recording is too large to stand in memory. Levels, spectra, running levels, spectrograms and plots are made of it part by part; a stretch that `trim` takes is a recording like any other.',
    wrong: example('two weeks at 1 kHz in one file', 'load "run.csv" | highpass 2 Hz | levels'),
    right: example('two weeks at 1 kHz in one file', 'load "run.csv" | trim 0..600 s | highpass 2 Hz | levels'),
  },
  'cut-short': {
    title: 'The end is cut short',
    why: 'The logger was switched off within a row, or before it had stated the length: what is whole is read.',
    wrong: example(`${sound}\n0.04,0.0`),
    right: example(sound),
  },
  'samples-after': {
    title: 'Samples after the samples',
    why: 'A WAV file holds one chunk of samples. Some recorders begin another when they are stopped and started again, and some programs hang one file on another; nothing says how much time lies between, so only the first chunk is read.',
    wrong: example('RIFF… data … data …', 'load "run.wav"'),
    right: example('run-1.wav and run-2.wav, a chunk each', 'load "run-*.wav"'),
  },
  'sheet.large': {
    title: 'Too large for a run sheet',
    why: 'A run sheet has a line for each recording and is typed by a person; this file is probably a recording.',
    wrong: example('raw/run.csv, 40 MB', 'load sheet "raw/run.csv"'),
    right: example(sheet, withSheet),
  },
  'sheet.binary': {
    title: 'A run sheet that is no text',
    why: 'A run sheet is a CSV file.',
    wrong: example('runs.xlsx', 'load sheet "runs.xlsx"'),
    right: example(sheet, withSheet),
  },
  'sheet.empty': {
    title: 'An empty run sheet',
    why: 'It has no line but blank ones and comments.',
    wrong: example('# my runs', withSheet),
    right: example(sheet, withSheet),
  },
  'sheet.column': {
    title: 'Two columns of one name',
    why: 'Nobody could tell which of them is meant; the unit in brackets is no part of the name.',
    wrong: example('file,speed (m/s),speed (km/h)\nfoam-1.csv,1.2,4.3', withSheet),
    right: example('file,speed (m/s),belt speed (km/h)\nfoam-1.csv,1.2,4.3', withSheet),
  },
  'sheet.width': {
    title: 'A line with more cells than the header',
    why: 'A note that holds the delimiter is read as two cells unless it stands in quotes.',
    wrong: example('file,condition,note\nfoam-1.csv,foam,dry, 16 °C', withSheet),
    right: example('file,condition,note\nfoam-1.csv,foam,"dry, 16 °C"', withSheet),
  },
};

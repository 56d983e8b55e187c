import type { TextFacts } from '../messages/text.ts';
import { example, header, rows, sound, type Pages } from './page.ts';

const semicolons = 't (s);x (g);y (g);z (g)\n0,00;0,01;0,02;1,00\n0,01;0,02;0,01;0,98\n0,02;0,01;0,02;1,01';

export const textPages: Pages<TextFacts> = {
  'not-text': {
    title: 'Neither text nor a known format',
    why: 'Bytes that are no characters stand all over the file.',
    wrong: example('a logger’s own binary file', 'load "run.bin"'),
    right: example('the same exported as CSV'),
  },
  'line-too-long': {
    title: 'A line that is no row',
    why: 'A line of a megabyte is no row: the line ends are missing, or a quote is not closed.',
    wrong: example(`${header}\n0.00,"0.01,0.02,1.00\n…`),
    right: example(sound),
  },
  delimiter: {
    title: 'No delimiter',
    why: 'What parts the columns is one character, or `tab` or `space`.',
    wrong: example(sound, 'load "run.csv" delimiter "comma "'),
    right: example(sound, 'load "run.csv" delimiter ","'),
  },
  'two-tables': {
    title: 'Two tables in one file',
    why: 'Some dozen rows of another form stand above the table; as a preamble they would be lost unseen.',
    wrong: example(`1;2\n3;4\n… (20 rows)\n${sound}`),
    right: example(`1;2\n3;4\n… (20 rows)\n${sound}`, 'load "run.csv" skip 22'),
  },
  'no-table': {
    title: 'No rows of numbers',
    why: 'No delimiter and no decimal mark make rows of numbers of the file’s lines.',
    wrong: example('A quiet day, no numbers at all.\nNothing was measured.'),
    right: example(sound),
  },
  'ambiguous-delimiter': {
    title: 'Two ways to part the columns',
    why: 'The lines make a table of numbers in two ways, and nothing in the file tells which is meant.',
    wrong: example('1,12\n3,12\n2,12\n4,12', 'load "run.csv" unit g rate 100 Hz'),
    right: example('1,12\n3,12\n2,12\n4,12', 'load "run.csv" delimiter "," unit g rate 100 Hz'),
  },
  'ambiguous-decimal': {
    title: 'A mark that may part thousands',
    why: 'Every number has exactly three digits after its mark: 1.234 reads as 1.234 and as 1234.',
    wrong: example('t (s);z (g)\n1.001;1.002\n1.002;1.004\n1.003;1.002'),
    right: example('t (s);z (g)\n1.001;1.002\n1.002;1.004\n1.003;1.002', 'load "run.csv" decimal "."'),
  },
  'split-decimals': {
    title: 'Decimal commas between commas',
    why: 'Commas stand within the numbers and between them: nothing tells one from the other.',
    wrong: example('0,012,0,981\n0,008,0,979\n1,004,0,985\n0,012,0,981'),
    right: example(semicolons, 'load "run.csv" delimiter ";" decimal ","'),
  },
  'header-mismatch': {
    title: 'A header that does not fit',
    why: 'The line above the rows names columns, but more or fewer than there are.',
    wrong: example(`t (s),z (g)\n${rows()}`),
    right: example(`t (s),x (g),y (g),z (g)\n${rows()}`),
  },
  'header-changes': {
    title: 'Other columns from a line on',
    why: 'A logger that is set up anew may go on in the same file with other columns.',
    wrong: example(`${sound}\n…\ntime,gyro x,acc z\n0.00,1.2,0.98\n…`),
    right: example(`${sound}\n…`, 'load "run-1.csv"'),
  },
  ragged: {
    title: 'Lines with more or fewer fields',
    why: 'A line here and there may be damaged and is left out with a warning; where there are many, or the first rows are such, the layout is another.',
    wrong: example(`${sound}\nbattery,low\n${rows(5, ',', 4)}`),
    right: example(`${sound}\n${rows(5, ',', 4)}`),
  },
  'not-a-number': {
    title: 'A cell that is no number',
    why: 'A word in a column of numbers, or a number with another decimal mark, is never read as something else.',
    wrong: example(`${sound}\n0.04,0.01,0.02,1.O1\n${rows(5, ',', 5)}`),
    right: example(`${sound}\n0.04,0.01,0.02,1.01\n${rows(5, ',', 5)}`),
  },
  'remarks-below': {
    title: 'Remarks below the table',
    why: 'A few lines after the last row, such as totals, are no rows and are left out.',
    wrong: example(`${sound}\n…\nend of recording`),
    right: example(`${sound}\n…`),
  },
  'damaged-lines': {
    title: 'Damaged lines',
    why: 'Serial lines lose characters. Such rows count as lost samples, and no segment of a spectrum goes across them.',
    wrong: example(`${sound}\n…\n2.00,0.1\n…`),
    right: example(`${sound}\n…`),
  },
  'zero-bytes': {
    title: 'Bytes that are no text',
    why: 'After a loss of power a file may end in a block of zeros, or hold one; it is left out.',
    wrong: example(`${sound}\n␀␀␀␀…`),
    right: example(sound),
  },
  checksum: {
    title: 'A wrong checksum',
    why: 'The line was damaged on its way. Such rows count as lost samples.',
    wrong: example('t (s),z (g)\n0.00,1.00*2D\n0.01,0.98*2C\n0.02,0.07*2E\n0.03,1.00*2E\n0.04,0.98*29\n0.05,1.01*29'),
    right: example('t (s),z (g)\n0.00,1.00*2D\n0.01,0.98*2C\n0.02,1.01*2E\n0.03,1.00*2E\n0.04,0.98*29\n0.05,1.01*29'),
  },
  'checksum-unknown': {
    title: 'Checksums of another kind',
    why: 'They were taken off the rows and not held against them.',
    wrong: example('t (s),z (g)\n0.00,1.00*01\n0.01,0.98*02\n0.02,1.01*03\n0.03,1.00*04'),
    right: example('t (s),z (g)\n0.00,1.00*2D\n0.01,0.98*2C\n0.02,1.01*2E\n0.03,1.00*2E'),
  },
  'commented-rows': {
    title: 'Rows behind the mark of a comment',
    why: 'Some loggers mark rows so that are in doubt, some all that follow an event.',
    wrong: example(`${header}\n${rows(4)}\n#0.04,0.01,0.02,1.01\n${rows(4, ',', 5)}`),
    right: example(`${header}\n${rows(4)}\n#0.04,0.01,0.02,1.01\n${rows(4, ',', 5)}`, 'load "run.csv" comment none'),
  },
  overload: {
    title: 'Readings beyond the range',
    why: 'The logger writes a word where the sensor was overdriven. Those readings are lost.',
    wrong: example(`${sound}\n0.04,0.01,0.02,OVERLOAD\n…`),
    right: example('the same recorded with a larger range'),
  },
  'header-repeated': {
    title: 'The header stands again within the rows',
    why: 'Some loggers write it whenever they begin anew; the rows before and after it are read as one recording.',
    wrong: example(`${sound}\n${header}\n${rows(5, ',', 4)}`),
    right: example(`${sound}\n${rows(5, ',', 4)}`),
  },
};

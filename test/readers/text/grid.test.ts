import { strict as assert } from 'node:assert';
import { gridOf, sniff, splitDecimals, withoutTail, type Grid } from '../../../src/readers/text/sniff.ts';
import type { DecimalMark } from '../../../src/readers/text/number.ts';

const linesOf = (text: string): { text: string; line: number }[] =>
  text.split('\n').map((line, i) => ({ text: line, line: i + 1 }));
const rows = (count: number, row: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => row(i)).join('\n');
const brief = (grid: Grid | undefined): string =>
  grid === undefined
    ? 'none'
    : `${grid.columns.map((kind) => kind[0]).join('')} from ${grid.first}, ${grid.rows.length} rows${grid.trailing ? ', trailing' : ''}${grid.tail === '' ? '' : `, tail ${grid.tail}`}`;
const grid = (text: string, delimiter = ',', decimal: DecimalMark = '.'): string =>
  brief(gridOf(linesOf(text), delimiter, decimal));

describe('a head as a table by one delimiter', () => {
  it('has the kinds of its columns: numbers, stamps, texts and nothing', () => {
    assert.equal(grid(rows(20, (i) => `12:00:${10 + i},${i / 10},left,`)), 'snt from 0, 20 rows, trailing');
    assert.equal(grid(rows(20, (i) => `${i},,left`)), 'net from 0, 20 rows');
    assert.equal(grid(rows(20, () => 'left,right')), 'none');
  });

  it('takes for a kind what four in five of the filled cells are', () => {
    const share = (odd: number): string => grid(rows(40, (i) => `${i % 20 < odd ? 'oh' : i},${i},1`));
    assert.equal(share(4), 'nnn from 4, 32 rows');
    assert.equal(share(5).slice(0, 3), 'tnn');
    assert.equal(grid(rows(20, (i) => `${i % 2 === 0 ? '' : i},${i}`)), 'nn from 0, 20 rows');
  });

  it('is as wide as most of its last lines, and begins where three in a row fit', () => {
    assert.equal(grid(`made,by,a,careful,hand\n${rows(20, (i) => `${i},1`)}`), 'nn from 1, 20 rows');
    assert.equal(grid(`1,2\noh\n3,4\n5,6\n${rows(20, (i) => `${i},1`)}`), 'nn from 2, 22 rows');
    assert.equal(grid(`1,2\n3,4\noh\n${rows(20, (i) => `${i},1`)}`), 'nn from 3, 20 rows');
    assert.equal(grid('1,2\n3,4'), 'nn from 0, 2 rows');
    assert.equal(grid('1,2'), 'nn from 0, 1 rows');
  });

  it('passes over comments and blank lines', () => {
    assert.equal(grid(`# 1,2,3\n\n${rows(20, (i) => `${i},1${i % 5 === 0 ? '\n' : ''}`)}`), 'nn from 2, 20 rows');
    assert.equal(grid('# 1,2\n# 3,4'), 'none');
    assert.equal(grid(''), 'none');
  });

  it('looks at four hundred rows, of which six in ten have to fit', () => {
    assert.equal(grid(rows(500, (i) => `${i},1`)), 'nn from 0, 400 rows');
    const half = (bad: number): string => grid(`1,2\n3,4\n5,6\n${rows(97, (i) => (i < bad ? 'oh' : `${i},1`))}`);
    assert.equal(half(39), 'nn from 0, 61 rows');
    assert.equal(half(41).startsWith('nn from 0'), false);
  });

  it('may end each row with a delimiter, or another mark', () => {
    assert.equal(grid(rows(20, (i) => `${i},1,`)), 'nn from 0, 20 rows, trailing');
    assert.equal(grid(rows(20, (i) => `${i},1${i % 2 === 0 ? ',' : ''}`)).slice(0, 2), 'nn');
    assert.equal(grid(rows(20, (i) => `${i},1;`)), 'nn from 0, 20 rows, tail ;');
    assert.equal(grid(rows(20, (i) => `${i},1|`)), 'nn from 0, 20 rows, tail |');
    assert.equal(
      grid(
        rows(20, (i) => `${i} 1,`),
        ' ',
      ),
      'nn from 0, 20 rows, tail ,',
    );
    assert.equal(grid(rows(20, (i) => `${i},1${i === 19 ? '' : ';'}`)).slice(0, 2), 'nt');
    assert.equal(grid(rows(20, (i) => `${i},;`)), 'nt from 0, 20 rows');
  });

  it('by blanks takes any run of them for one', () => {
    assert.equal(
      grid(
        rows(20, (i) => `  ${i}   1 \t 2`),
        ' ',
      ),
      'nnn from 0, 20 rows',
    );
  });

  it('takes so many digits for a date and clock', () => {
    assert.equal(grid(rows(20, (i) => `202405140930${10 + i},1`)), 'sn from 0, 20 rows');
    assert.equal(grid(rows(20, (i) => `199999999999${10 + i},1`)), 'nn from 0, 20 rows');
    assert.equal(grid(rows(20, (i) => `2024051409${10 + i},1`)), 'nn from 0, 20 rows');
  });

  it('reads numbers by its decimal mark', () => {
    assert.equal(
      grid(
        rows(20, (i) => `1,${i};2,5`),
        ';',
        ',',
      ),
      'nn from 0, 20 rows',
    );
    assert.equal(
      grid(
        rows(20, (i) => `1,${i};2,5`),
        ';',
        '.',
      ),
      'none',
    );
  });
});

describe('the mark at the end of a row', () => {
  it('is taken off its last field', () => {
    assert.deepEqual(withoutTail(['1', '2;'], ';'), ['1', '2']);
    assert.deepEqual(withoutTail(['1', ' 2 ; '], ';'), ['1', '2 ']);
    assert.deepEqual(withoutTail(['1', '2'], ';'), ['1', '2']);
    assert.deepEqual(withoutTail(['1', '2;'], ''), ['1', '2;']);
    assert.deepEqual(withoutTail([], ';'), []);
  });
});

describe('the one reading of a head', () => {
  const read = (text: string, options: Partial<Parameters<typeof sniff>[2]> = {}): string => {
    const found = sniff('run.csv', linesOf(text), { headerFields: () => undefined, ...options });
    return found.ok ? `"${found.value.delimiter}" ${found.value.decimal} ${brief(found.value)}` : found.failure.message;
  };

  it('is that with the most numbers, and the fewest texts', () => {
    assert.equal(read(rows(20, (i) => `${i}.5,1.25,2.5`)), '"," . nnn from 0, 20 rows');
    assert.equal(read(rows(20, (i) => `${i},5;1,25;2,5`)), '";" , nnn from 0, 20 rows');
    assert.equal(read(rows(20, (i) => `${i}.5\t1.25\tleft side`)), '"\t" . nnt from 0, 20 rows');
    assert.equal(read(rows(20, (i) => `2024-05-14 12:00:${10 + i}\t1.5`)), '"\t" . sn from 0, 20 rows');
  });

  it('is refused where two would do, unless the header has as many fields as one of them', () => {
    assert.equal(read(rows(20, (i) => `${i},5;1,5`)), '";" , nn from 0, 20 rows');
    const doubtful = rows(20, (i) => `${10 + i},5`);
    const refusal =
      /^run\.csv:1: "10,5" reads as 2 columns parted by a comma with decimal points and as 1 column parted by a tab/;
    assert.match(read(doubtful), refusal);
    const fields = (best: number, rival: number) => (found: Grid) => (found.columns.length === 2 ? best : rival);
    assert.equal(read(doubtful, { headerFields: fields(2, 2) }), '"," . nn from 0, 20 rows');
    assert.equal(read(doubtful, { headerFields: fields(1, 1) }), '"\t" , n from 0, 20 rows');
    assert.match(read(doubtful, { headerFields: fields(2, 1) }), refusal);
    assert.match(read(doubtful, { headerFields: fields(3, 3) }), refusal);
  });

  it('follows the options', () => {
    assert.match(
      read(
        rows(20, (i) => `${i},5;1,5`),
        { delimiter: ';' },
      ),
      /^";" , nn/,
    );
    assert.match(
      read(
        rows(20, (i) => `${i};1`),
        { delimiter: ',' },
      ),
      /no rows of numbers were found/,
    );
    assert.match(
      read(
        rows(20, (i) => `${i}.5;1.5`),
        { decimal: '.' },
      ),
      /^";" \. nn/,
    );
  });

  it('doubts a mark that always stands before three digits', () => {
    assert.match(read(rows(20, (i) => `1.${100 + i};2`)), /^run\.csv:1: "1\.100" reads as 1\.1 and as 1100/);
    assert.match(read(rows(20, (i) => `1,${100 + i};2`)), /"1,100" reads as 1\.1 and as 1100/);
    assert.match(read(rows(20, (i) => `1.${100 + i};2.5`)), /^";" \./);
    assert.match(read(rows(20, (i) => `1.${100 + i};2e3`)), /^";" \./);
    assert.match(read(rows(20, (i) => `0.${100 + i};2`)), /^";" \./);
    assert.match(
      read(
        rows(20, (i) => `1.${100 + i};2`),
        { decimal: '.' },
      ),
      /^";" \./,
    );
  });

  it('is none without rows of numbers, and says which line it looked at', () => {
    assert.match(read(''), /holds no text/);
    assert.match(
      read(rows(20, () => '# remark')),
      /^run\.csv:1: nearly every line begins with a comment mark \("# remark"\)/,
    );
    assert.match(read(`one\ntwo 2\nthree`), /^run\.csv:2: no rows of numbers were found \("two 2"/);
    assert.match(read(`one\ntwo\nthree`), /^run\.csv:3: no rows of numbers were found \("three"/);
  });
});

describe('decimal commas between commas', () => {
  const split = (text: string, delimiter = ','): string => {
    const lines = linesOf(text);
    return splitDecimals('run.csv', lines, gridOf(lines, delimiter, '.')!)?.failure.message ?? 'none';
  };

  it('show by zeros at the front of every second column', () => {
    assert.match(
      split(rows(20, (i) => `0,0${10 + i},-1,${10 + i}`)),
      /^run\.csv:1: "0,010,-1,10" seems to have decimal commas/,
    );
    assert.equal(split(rows(20, (i) => `0,${10 + i},-1,${10 + i}`)), 'none');
    assert.equal(split(rows(20, (i) => `0,0${10 + i},-1`)), 'none');
    assert.equal(split(rows(20, (i) => `0,0${10 + i},-1,-${10 + i}`)), 'none');
    assert.equal(split(rows(20, (i) => `0,0${10 + i},1.5,${10 + i}`)), 'none');
    assert.equal(
      split(
        rows(20, (i) => `0;0${10 + i};1;${10 + i}`),
        ';',
      ),
      'none',
    );
  });
});

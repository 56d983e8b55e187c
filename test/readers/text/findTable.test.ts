import { strict as assert } from 'node:assert';
import { findTable, type FoundTable } from '../../../src/readers/text/findTable.ts';
import type { ReadOptions } from '../../../src/readers/recording.ts';

const tableIn = (text: string, options: ReadOptions = {}): ReturnType<typeof findTable> =>
  findTable(
    'a.csv',
    text.split('\n').map((one, i) => ({ text: one, line: i + 1 })),
    options,
  );
function found(text: string, options: ReadOptions = {}): FoundTable {
  const table = tableIn(text, options);
  return table.ok ? table.value : assert.fail(table.failure.message);
}
const rows = (count: number, row: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => row(i)).join('\n');
const wave = (i: number): string => Math.sin(i).toFixed(3);

describe('the table in the first lines of a text', () => {
  it('is parted as its first line says, which is no row of its own', () => {
    for (const [line, delimiter] of [
      ['sep=;', ';'],
      ['"sep=\\t"', '\t'],
      ['SEP=|', '|'],
    ]) {
      const { grid, header, lines } = found(
        `${line}\n${['t', 'x'].join(delimiter)}\n${rows(30, (i) => [i / 100, wave(i)].join(delimiter))}`,
      );
      assert.deepEqual([grid.delimiter, grid.first, header.names, header.headerLine], [delimiter, 2, ['t', 'x'], 2]);
      assert.equal(lines[0].line, 2);
    }
  });

  it('is parted as is asked for, by a character or its name, and by one alone', () => {
    const names = { tab: '\t', '\\t': '\t', space: ' ', Comma: ',', semicolon: ';', pipe: '|', bar: '|', '/': '/' };
    for (const [delimiter, character] of Object.entries(names)) {
      const { grid } = found(
        rows(30, (i) => [i / 100, wave(i), i].join(character)),
        { delimiter },
      );
      assert.deepEqual([grid.delimiter, grid.columns.length], [character, 3], delimiter);
    }
    for (const delimiter of ['ab', '']) {
      const refused = tableIn(
        rows(30, (i) => `${i},${wave(i)}`),
        { delimiter },
      );
      assert.equal(refused.ok ? '' : refused.failure.code, 'delimiter');
    }
  });

  it('is refused where 20 rows of numbers or more stand above it that are parted otherwise', () => {
    const below = (above: string): ReturnType<typeof findTable> =>
      tableIn(`${above}\n${rows(60, (i) => `${i},${wave(i)}`)}`);
    const other = (count: number) => below(rows(count, (i) => `${i};${wave(i)};7`));
    const refused = other(20);
    assert.ok(!refused.ok, 'two tables');
    assert.equal(refused.failure.code, 'two-tables');
    assert.deepEqual(refused.failure.facts, { path: 'a.csv', from: 1, to: 21 });
    const fewer = other(19);
    assert.ok(fewer.ok, 'fewer are taken for a preamble');
    assert.equal(fewer.value.grid.first, 19);
    assert.equal(fewer.value.preamble.lines.length, 19);
    assert.ok(below(rows(30, wave)).ok, 'and so is a column of numbers');
  });

  it('has a last column of remarks where it is named, though no row looked at has one', () => {
    const of = (header: string): FoundTable => found(`${header}\n${rows(30, (i) => `${i / 100},${wave(i)},`)}`);
    const named = of('t,x,remark');
    assert.deepEqual([named.grid.columns, named.grid.trailing], [['number', 'number', 'empty'], false]);
    assert.deepEqual(named.header.names, ['t', 'x', 'remark']);
    for (const header of ['t,x,', 't,x', '\nt,x,']) {
      const bare = of(header);
      assert.deepEqual([bare.grid.columns, bare.grid.trailing], [['number', 'number'], true], header);
      assert.deepEqual(bare.header.names, ['t', 'x'], header);
    }
  });

  it('has a preamble of what stands above but the names and units', () => {
    const text = `# logger 7\n# rate: 100 Hz\nof the corridor\nt (s),x\ns,g\n${rows(30, (i) => `${i / 100},${wave(i)}`)}`;
    const { preamble, header, grid } = found(text);
    assert.deepEqual(preamble.lines, ['# logger 7', '# rate: 100 Hz', 'of the corridor']);
    assert.deepEqual(
      [preamble.rate, header.names, header.units, header.from, grid.first],
      [100, ['t (s)', 'x'], ['s', 'g'], 3, 5],
    );
  });
});

describe('lines of words and numbers', () => {
  it('are a table by their labels, where these name the numbers', () => {
    const line = (i: number): string => `T: ${(i / 100).toFixed(2)} s X=${wave(i)} g Y=${wave(2 * i)} g`;
    const { grid, header, preamble, labelled } = found(`Logger 7\nrate: 100 Hz\n${rows(30, line)}`);
    assert.ok(labelled !== undefined, 'the lines are labelled');
    assert.deepEqual([grid.first, grid.columns], [2, ['number', 'number', 'number']]);
    assert.deepEqual(
      [header.names, header.units, header.headerLine, header.from],
      [['T', 'X', 'Y'], ['s', 'g', 'g'], undefined, 2],
    );
    assert.deepEqual([preamble.lines, preamble.rate], [['Logger 7', 'rate: 100 Hz'], 100]);
    // Labels of their own come before names above, which are then no header.
    const both = found(`time,left,right\n${rows(30, line)}`).header;
    assert.deepEqual([both.names, both.headerLine], [['T', 'X', 'Y'], undefined]);
    const words = found(rows(30, (i) => `acc ${wave(i)} gyro ${wave(2 * i)} end`));
    assert.deepEqual([words.header.names, words.labelled !== undefined], [['acc', 'gyro'], true]);
  });

  it('are named by the line above them where it has as many names, and no number', () => {
    const line = (i: number): string => `[${(i / 100).toFixed(2)}] (${wave(i)}) {${wave(2 * i)}}`;
    for (const [above, names, headerLine, remarks] of [
      ['Logger\ntime,x,y', ['time', 'x', 'y'], 2, ['Logger']],
      ["'time';'x';'y'\n", ['time', 'x', 'y'], 1, []],
      ['t\tx1\ty2', ['t', 'x1', 'y2'], 1, []],
      ['Logger\ntime;x', undefined, undefined, ['Logger', 'time;x']],
      ['of 12,x,y', undefined, undefined, ['of 12,x,y']],
    ] as const) {
      const { header, preamble } = found(`${above}\n${rows(30, line)}`);
      assert.deepEqual([header.names, header.headerLine, preamble.lines], [names, headerLine, remarks], above);
    }
  });

  it('are left as they are where one column alone is the same word everywhere', () => {
    const { grid, labelled } = found(rows(30, (i) => `${(i / 100).toFixed(2)} ${wave(i)} g`));
    assert.deepEqual([labelled, grid.columns], [undefined, ['number', 'number', 'text']]);
  });
});

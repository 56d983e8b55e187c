import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { gridOf, withoutTail, type CellKind } from '../../../src/readers/text/sniff.ts';
import { recordingOf, refusalOf, rows, samplesOf } from '../memory.ts';

const value = (i: number, axis: number): string =>
  ((axis === 2 ? 1 : 0) + 0.1 * Math.sin(1 + i * (1 + axis))).toFixed(4);
const stamp = (i: number): string => (i / 350).toFixed(5);

/** The same recording with any delimiter, decimal mark and line end. */
function written(delimiter: string, decimal: string, end = '\n', header = true): string {
  const lines = rows(
    60,
    (i) => [stamp(i), value(i, 0), value(i, 1), value(i, 2)].map((cell) => cell.replace('.', decimal)),
    delimiter,
    end,
  );
  return (header ? ['time (s)', 'ax (g)', 'ay (g)', 'az (g)'].join(delimiter) + end : '') + lines;
}

describe('layout of delimited text', () => {
  it('is said to have one row of numbers where it has no more, and what is no such row is none', async () => {
    for (const text of ['t (s),z (g)\n0.00,0.1\n', 't;z\n0,00;0,1', '# made by hand\nt z\n0.00 0.1\n', 'z\n1\n'])
      assert.match((await refusalOf(text)).message, /one row of numbers; .* cut short/, JSON.stringify(text));
    for (const text of ['t,z\nnone,none\n', 't,z\n0.1,up 2\n'])
      assert.doesNotMatch((await refusalOf(text)).message, /one row of numbers/, JSON.stringify(text));
  });

  for (const [delimiter, decimal] of [
    [',', '.'],
    [';', '.'],
    [';', ','],
    ['\t', '.'],
    ['\t', ','],
    ['|', '.'],
    ['|', ','],
    [' ', '.'],
    [' ', ','],
    ['   ', '.'],
    [', ', '.'],
    [' ; ', ','],
  ]) {
    it(`finds delimiter "${delimiter}" and decimal "${decimal}" without being told`, async () => {
      for (const header of [true, false]) {
        const text = written(delimiter, decimal, '\n', header && delimiter !== ' ' && delimiter !== '   ');
        const recording = await recordingOf(text);
        assert.equal(recording.layout.decimal, decimal);
        assert.equal(recording.layout.delimiter, delimiter.trim() || delimiter[0]);
        assert.equal(samplesOf(recording, 'z')[59], Number(value(59, 2)));
        assert.ok(Math.abs(recording.clock.rate - 350) < 0.01);
      }
    });
  }

  it('finds the encoding: UTF-8 with and without its mark, UTF-16 of both orders with and without, Latin-1', async () => {
    const text = written(';', ',')
      .replace('az (g)', 'Z-Beschleunigung (m/s²)')
      .replace(/ax \(g\)|ay \(g\)/g, (name) => name.replace('g', 'm/s²'));
    const marked = `\ufeff${text}`;
    const big = (of: string): Uint8Array => Uint8Array.from(Buffer.from(of, 'utf16le').swap16());
    const cases: [string, Uint8Array][] = [
      ['UTF-8', Buffer.from(text, 'utf8')],
      ['UTF-8 with BOM', Buffer.from(marked, 'utf8')],
      ['UTF-16LE', Buffer.from(marked, 'utf16le')],
      ['UTF-16LE', Buffer.from(text, 'utf16le')],
      ['UTF-16BE', big(marked)],
      ['UTF-16BE', big(text)],
      ['Latin-1', Buffer.from(text, 'latin1')],
    ];
    for (const [encoding, bytes] of cases) {
      const result = await recordingOf(Uint8Array.from(bytes), { unit: 'm/s^2' });
      assert.equal(result.layout.encoding, encoding);
      assert.equal(result.channels[2].header, 'Z-Beschleunigung (m/s²)');
      assert.equal(result.channels[2].unit, 'm/s^2');
      assert.equal(samplesOf(result, 'z')[3], Number(value(3, 2)));
    }
  });

  it('reads quoted fields, with the delimiter and line ends inside them', async () => {
    const text =
      '"t","x","y","z","note"\n' +
      rows(30, (i) => [
        `"${stamp(i)}"`,
        `"${value(i, 0)}"`,
        value(i, 1),
        value(i, 2),
        i === 4 ? '"a, b\nc ""d"""' : '"ok"',
      ]);
    const recording = await recordingOf(text);
    assert.deepEqual(
      samplesOf(recording, 'x'),
      Array.from({ length: 30 }, (_, i) => Number(value(i, 0))),
    );
    assert.deepEqual(
      samplesOf(recording, 'z'),
      Array.from({ length: 30 }, (_, i) => Number(value(i, 2))),
    );
  });

  it('reads keys of the preamble, comment marks, a units row and a line that states the delimiter', async () => {
    const body = rows(40, (i) => [stamp(i), value(i, 0), value(i, 1), value(i, 2)], ';');
    const recording = await recordingOf(
      `sep=;\nSerial: 1234\nRange;16 g\n# Sample rate (Hz) = 350\n\ntime;ax;ay;az\ns;mg;mg;mg\n${body}`,
    );
    assert.equal(recording.layout.keys?.Serial, '1234');
    assert.equal(recording.layout.keys?.Range, '16 g');
    assert.equal(recording.layout.headerLine, 6);
    assert.equal(recording.layout.unitsLine, 7);
    assert.equal(recording.layout.firstRowLine, 8);
    assert.deepEqual(
      recording.channels.map(({ name, unit, unitFrom }) => [name, unit, unitFrom]),
      [
        ['x', 'mg', 'header'],
        ['y', 'mg', 'header'],
        ['z', 'mg', 'header'],
      ],
    );
  });

  it('refuses two readings that both parse, and says both and the option', async () => {
    const thousands = await refusalOf('x;y;z\n' + rows(20, () => ['1,234', '5,678', '2,345'], ';'), { rate: 100 });
    assert.match(thousands.message, /1\.234 and as 1234.*decimal/);
    const points = await refusalOf('x;y;z\n' + rows(20, () => ['1.234', '5.678', '2.345'], ';'), { rate: 100 });
    assert.match(points.message, /decimal/);
    const pairs = await refusalOf(
      rows(20, (i) => [i % 5, 12]),
      { rate: 100 },
    );
    assert.match(pairs.message, /2 columns.*1 column.*delimiter/);
    assert.deepEqual(
      samplesOf(
        await recordingOf(
          rows(20, (i) => [i % 5, 12]),
          { rate: 100, delimiter: ',' },
        ),
        'column2',
      ).slice(0, 2),
      [12, 12],
    );
    assert.deepEqual(
      samplesOf(
        await recordingOf(
          rows(20, (i) => [i % 5, 12]),
          { rate: 100, decimal: ',' },
        ),
        'column1',
      ).slice(0, 2),
      [0.12, 1.12],
    );
  });

  it('lets the header settle whether a comma parts fields or decimals', async () => {
    const two = await recordingOf('x,y\n' + rows(20, (i) => [i % 5, 12]), { rate: 100 });
    assert.equal(two.channels.length, 2);
    const one = await recordingOf('x\n' + rows(20, (i) => [i % 5, 12]), { rate: 100 });
    assert.equal(samplesOf(one, 'x')[1], 1.12);
    const split = await refusalOf('t,x\n' + rows(20, (i) => [0, `0${i}`, 1, 234]));
    assert.match(split.message, /header.*2 fields.*4.*decimal comma/);
  });

  it('refuses a word, a short row and a long row, with the line, the column and the text', async () => {
    const good = (i: number): string[] => [stamp(i), value(i, 0), value(i, 1), value(i, 2)];
    const word = await refusalOf(
      't,x,y,z\n' + rows(50, (i) => (i === 20 ? [stamp(i), value(i, 0), 'oops', value(i, 2)] : good(i))),
    );
    assert.match(word.message, /^run\.csv:22:\d+: "oops" in column "y" is not a number/);
    const short = await refusalOf('t,x,y,z\n' + rows(50, (i) => (i > 20 && i < 24 ? good(i).slice(0, 3) : good(i))));
    assert.match(short.message, /^run\.csv:23: this line has 3 fields where the others have 4.*2 others/);
    const long = await refusalOf('t,x,y,z\n' + rows(50, (i) => (i === 20 ? [...good(i), 9] : good(i))));
    assert.match(long.message, /^run\.csv:22: this line has 5 fields/);
    const comma = await refusalOf(
      't;x;y;z\n' + rows(50, (i) => (i === 20 ? [stamp(i), '1,0042', value(i, 1), value(i, 2)] : good(i)), ';'),
    );
    assert.match(comma.message, /"1,0042".*decimal ","/);
  });

  it('leaves out a last line that is cut short, a repeated header and zero bytes, and says so', async () => {
    const text = written(',', '.');
    const codes = async (of: string): Promise<string[]> => (await recordingOf(of)).findings.map(({ code }) => code);
    assert.deepEqual(await codes(`${text}0.17143,0.0`), ['cut-short']);
    assert.deepEqual(await codes(`${text}\0\0\0\0`), ['zero-bytes']);
    const lines = text.split('\n');
    assert.deepEqual(await codes([...lines.slice(0, 30), lines[0], ...lines.slice(30)].join('\n')), [
      'header-repeated',
    ]);
  });

  it('takes lines for a table from three rows on end that fit, where three of five lines or more are rows', () => {
    const grid = (pattern: string): number | undefined =>
      gridOf(
        [...pattern].map((sign, i) => ({ text: sign === 'r' ? `${i},${i % 3}` : 'word', line: i + 1 })),
        ',',
        '.',
      )?.first;
    assert.equal(grid('rrrwwrrrrr'), 0);
    assert.equal(grid('wwrrrrrrrr'), 2);
    assert.equal(grid('rrwrrrrrrr'), 3);
    assert.equal(grid('rrrwwwwrrr'), 0);
    assert.equal(grid('rrrwwwwwrrr'), undefined);
  });

  it('takes a column for numbers or stamps where four fifths of its filled cells are', () => {
    // The columns are judged by the later half of the lines.
    const kindOf = (cells: readonly string[]): string | undefined =>
      gridOf(
        [...cells, ...cells].map((cell, i) => ({ text: `${i};${cell}`, line: i + 1 })),
        ';',
        '.',
      )?.columns[1];
    const clock = '12:00:01';
    assert.equal(kindOf([clock, clock, clock, clock, 'late']), 'stamp');
    assert.equal(kindOf([clock, clock, clock, 'late', 'late']), 'text');
    assert.equal(kindOf(['1', '2', '3', '4', 'off']), 'number');
    assert.equal(kindOf(['1', '2', '3', 'off', 'off']), 'text');
    assert.equal(kindOf([clock, clock, clock, clock, '', '', 'late']), 'stamp');
  });

  it('finds the columns of a table, what ends its rows and where they begin, whatever stands above', () => {
    const cellOf = (kind: CellKind, i: number): string =>
      ({ number: (1.25 * i - 7).toFixed(2), stamp: `12:00:${10 + (i % 50)}.5`, text: 'left', empty: '' })[kind];
    const kind = fc.constantFrom<CellKind>('number', 'stamp', 'text', 'empty');
    const table = fc
      .record({
        kinds: fc
          .tuple(
            fc.array(kind, { maxLength: 4 }),
            kind.filter((one) => one !== 'empty'),
          )
          .map(([k, one]) => [...k, one]),
        delimiter: fc.constantFrom(';', '\t', '|', ',', ' '),
        end: fc.constantFrom('', 'delimiter', ';', '|', ','),
        above: fc.integer({ min: 0, max: 5 }),
        count: fc.integer({ min: 12, max: 60 }),
      })
      .filter(
        ({ kinds, delimiter, end }) =>
          kinds.includes('number') &&
          end !== delimiter &&
          !(end === 'delimiter' && kinds.length === 1) &&
          !(delimiter === ' ' && (end === 'delimiter' || kinds.includes('empty'))),
      );
    const law = fc.property(table, ({ kinds, delimiter, end, above, count }) => {
      const cells = Array.from({ length: count }, (_, i) => kinds.map((one) => cellOf(one, i)));
      const lines = [
        ...Array.from({ length: above }, () => 'words above'),
        ...cells.map((row) => row.join(delimiter) + (end === 'delimiter' ? delimiter : end)),
      ];
      const grid = gridOf(
        lines.map((text, i) => ({ text, line: i + 1 })),
        delimiter,
        '.',
      );
      assert.ok(grid !== undefined, 'a table is found');
      assert.deepEqual(grid.columns, kinds);
      assert.deepEqual([grid.trailing, grid.tail], [end === 'delimiter', end === 'delimiter' ? '' : end]);
      assert.deepEqual([grid.first, grid.rows.length], [above, count]);
      assert.deepEqual(
        grid.rows.map((row) => row.slice(0, kinds.length)),
        cells,
      );
    });
    fc.assert(law, { numRuns: 200 });
  });

  it('takes the mark that ends the rows off the last field alone', () => {
    assert.deepEqual(withoutTail(['1;', ' 2; '], ';'), ['1;', '2']);
    assert.deepEqual(withoutTail(['1', '2'], ';'), ['1', '2']);
    assert.deepEqual(withoutTail(['1', '2;'], ''), ['1', '2;']);
    assert.deepEqual(withoutTail([], ';'), []);
  });

  it('takes two rows for a table', async () => {
    const { layout, clock } = await recordingOf('t (s),z (g)\n0.00,0.1\n0.01,0.2\n');
    assert.deepEqual([layout.rows, clock.rate], [2, 100]);
  });

  it('refuses what is no table of numbers in one sentence', async () => {
    for (const text of [
      '',
      '\n\n',
      'hello',
      'a,b\nc,d\n',
      '1\n',
      'x,y,z\n',
      'The quick brown fox\njumps over\n',
      '\0\0\0\0',
      't,x\n0,1\n',
    ]) {
      await refusalOf(text);
    }
  });
});

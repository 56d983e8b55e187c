import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { findTable } from '../../../src/readers/text/findTable.ts';
import { plainHead } from '../../../src/readers/text/plainHead.ts';
import { recordingOf, refusalOf } from '../memory.ts';

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const cell = (i: number, k: number): string => (Math.sin(i + 2 * k) + k).toFixed(4);
const row = (i: number, delimiter = ','): string =>
  [(i / 100).toFixed(2), cell(i, 1), cell(i, 2), cell(i, 3)].join(delimiter);
const rows = (count: number, delimiter = ','): string[] => Array.from({ length: count }, (_, i) => row(i, delimiter));
const text = (lines: readonly string[], end = '\n'): string => ['t,x,y,z', ...lines, ''].join(end);
const table = (lines: readonly string[], end = '\n'): Uint8Array => bytesOf(text(lines, end));

describe('the head of a plain table', () => {
  it('tells its layout by some of its lines, whatever ends them, with a header or without', () => {
    const lines = rows(2500);
    for (const bytes of [table(lines), table(lines, '\r\n'), bytesOf(lines.join('\n'))]) {
      const { enough, decimals } = plainHead(bytes, false)!;
      assert.ok(enough < bytes.length / 50, String(enough));
      assert.deepEqual(decimals, [2, 4, 4, 4]);
      assert.equal(bytes[enough - 1], 10);
    }
    assert.ok(plainHead(bytesOf(rows(500, ';').join('\n').replaceAll('.', ',')), false));
    assert.ok(plainHead(bytesOf(rows(500, '\t').join('\n')), false));
  });

  it('tells the decimals of the first 200 rows, of which the first may stand where a header would', () => {
    const of = (at: number): string[] => rows(500).with(at, '1.12345,0.5,0.5,0.5');
    const firsts = [of(199), of(200)].flatMap((lines) => [table(lines), bytesOf(lines.join('\n'))]);
    assert.deepEqual(
      firsts.map((bytes) => plainHead(bytes, false)?.decimals[0]),
      [5, 5, 2, 2],
    );
  });

  it('is looked at whole where any of its lines is otherwise', () => {
    const odd = [
      '',
      '# a remark',
      '"0.10",0.1,0.2,0.3',
      '0.10,0.1,0.2',
      '0.10,0.1,0.2,0.3,',
      '0.10,0.1,,0.3',
      '1,2,3,4',
    ];
    for (const line of [...odd, '0.10,0.1,0.2e1,0.3', '0.10 ,0.1,0.2,0.3', '20240102101112.5,0.1,0.2,0.3'])
      assert.equal(plainHead(table(rows(1500).with(1200, line)), false), undefined, line);
    assert.equal(plainHead(bytesOf(`# x\n${rows(500).join('\n')}\n`), false), undefined);
    assert.equal(plainHead(bytesOf(`sep=,\n${rows(500).join('\n')}\n`), false), undefined);
  });

  it('is looked at whole where it is short, or ends within a row of the file’s end', () => {
    assert.equal(plainHead(table(rows(100)), true), undefined);
    assert.equal(plainHead(bytesOf(rows(500).join('\n')), true), undefined);
  });

  it('is looked at whole where a number could be two, or two one', () => {
    for (const of of [
      (i: number) => `${i},${i + 125}`,
      (i: number) => `${i}.5,${i + 125}`,
      (i: number) => `${i},125.5`,
    ]) {
      const lines = Array.from({ length: 500 }, (_, i) => of(i));
      assert.equal(plainHead(bytesOf(lines.join('\n')), false), undefined, lines[0]);
    }
    assert.ok(plainHead(bytesOf(Array.from({ length: 500 }, (_, i) => `${i}.5,${i}.25`).join('\n')), false));
  });

  for (const columns of [2, 4])
    it(`gives the layout that the whole head gives, of ${columns} columns`, async () => {
      const written = text(rows(3000)).replaceAll(new RegExp(`^((?:[^,]+,){${columns - 1}}[^,\\n]+).*$`, 'gm'), '$1');
      const small = await recordingOf(bytesOf(written));
      // A remark above the header makes it look at all.
      const whole = await recordingOf(`# remark\n${written}`);
      assert.deepEqual([small.layout.firstRowLine, whole.layout.firstRowLine], [2, 3]);
      for (const key of ['delimiter', 'decimal', 'rows', 'time', 'encoding', 'leftOut'] as const)
        assert.deepEqual(small.layout[key], whole.layout[key], key);
      assert.deepEqual(
        small.layout.firstRows?.map(({ values }) => values),
        whole.layout.firstRows?.map(({ values }) => values),
      );
      assert.deepEqual(small.channels, whole.channels);
      assert.deepEqual(small.clock, whole.clock);
    });

  it('that is refused by its first lines is refused as the whole is', async () => {
    const { code, message } = await refusalOf(['t,x', ...rows(500), ''].join('\n'));
    assert.match(message, /^run\.csv:1: .*2 fields.*4/, code);
  });

  it('leaves one form of the rows, by which the same table is found as among all of them, or the same is refused', () => {
    let [plain, tables] = [0, 0];
    fc.assert(
      fc.property(names, written, ({ delimiter, decimal, places, header }, numbers) => {
        const lines = Array.from({ length: 260 }, (_, i) =>
          places.map((of, k) => numbers[(i * places.length + k) % numbers.length].toFixed(of)).join(delimiter),
        ).map((line) => line.replaceAll('.', decimal));
        const all = header === undefined ? lines : [header.join(delimiter), ...lines];
        const head = plainHead(bytesOf(all.join('\n')), false);
        if (head === undefined) return;
        plain++;
        const first = all.slice(0, 40).map((text, i) => ({ text, line: i + 1 }));
        const found = findTable('a.csv', first, {}, head.form);
        if (found.ok) tables++;
        assert.deepEqual(found, findTable('a.csv', first, {}));
      }),
      { numRuns: 400 },
    );
    assert.ok(plain > 100 && tables > 80, `${plain} plain heads, ${tables} tables`);
  });
});

const name = fc.oneof(
  fc.constantFrom(
    'time',
    'x',
    'Acc X [m/s^2]',
    'a|b',
    'x;y',
    '1',
    '2.5',
    'X1',
    'z (g)',
    '',
    '12:00:01',
    'in mm, of z',
    'n/a',
  ),
  fc.string({ maxLength: 6 }).filter((one) => !/[\r\n]/.test(one)),
);
/** How a table is written: what parts its cells, the decimals of its columns, and what stands above them. */
const names = fc
  .record({
    form: fc.constantFrom<[string, string][]>([',', '.'], [';', '.'], [';', ','], ['\t', '.'], ['\t', ',']),
    places: fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 2, maxLength: 5 }),
    isNamed: fc.boolean(),
    header: fc.array(name, { minLength: 5, maxLength: 5 }),
  })
  .map(({ form: [delimiter, decimal], places, isNamed, header }) => ({
    delimiter,
    decimal,
    places,
    header: isNamed ? header.slice(0, places.length) : undefined,
  }));
const written = fc.array(
  fc.oneof(
    fc.double({ min: -2, max: 2, noNaN: true }),
    fc.double({ min: -99_999, max: 99_999, noNaN: true }),
    fc.constantFrom(0, 1000, -9999, 1.234, 12.345),
  ),
  { minLength: 5, maxLength: 60 },
);

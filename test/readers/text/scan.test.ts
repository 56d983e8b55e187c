import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import type { Plan } from '../../../src/readers/text/plan.ts';
import { scan } from '../../../src/readers/text/scan.ts';
import { ColumnSink } from '../../../src/readers/text/sink.ts';
import { recordingOf, samplesOf } from '../memory.ts';

/** Reads one number through the scanner; undefined where it stops before it. */
function scanned(text: string, decimal = '.'): number | undefined {
  const bytes = new TextEncoder().encode(`${text}\n\0`);
  const sink = new ColumnSink('number', 1);
  const cursor = { at: 0, row: 0, line: 1 };
  scan(bytes, cursor, bytes.length - 1, 1, {
    delimiter: 59,
    blanks: false,
    decimal: decimal.charCodeAt(0),
    tail: 0,
    sinks: [sink],
  });
  return cursor.row === 1 ? sink.values[0] : undefined;
}

const spellings = [
  '0',
  '-0',
  '+1',
  '1.',
  '.5',
  '-.5',
  '007',
  '0.1',
  '123456789',
  '1234567890',
  '123456789012345',
  '1234567890123456',
  '0.30000000000000004',
  '179769313486231570000000000000000000',
  '1.7976931348623157e308',
  '2.2250738585072014e-308',
  '5e-324',
  '2.4703282292062328e-324',
  '4.9406564584124654e-324',
  '2.225073858507201136057409796709131975934819546351645648023426109724822222021076945516529523908135087914149158913039621106870086438694594645527657207407820621743379988141063267329253552286881372149012981122451451889849057222307285255133155755015914397476397983411801999323962548289017107081850690630666655994938275772572015763062690663332647565300009245888316433037779791869612049497390377829704905051080609940730262937128958950003583799967207254304360284078895771796150945516748243471030702609144621572289880258182545180325707018860872113128079512233426288368622321503775666622503982534335974568884423900265498198385487948292206894721689831099698365846814022854243330660339850886445804001034933970427567186443383770486037861622771738545623065874679014086723327636718751234567890123456789012345678901e-308',
  '9007199254740993',
  '9007199254740992.5',
  '1e22',
  '1e23',
  '8.5e22',
  '3e-22',
  '3e-23',
  '1E5',
  '1e+5',
  '1e-05',
  '0e999',
  '123456789e-15',
  '0.000000000000000000000001',
  '72057594037927945',
  '999999999999999.9',
];

describe('the byte scanner', () => {
  it('gives the double nearest to what is spelt, sign of zero included', () => {
    for (const text of spellings) assert.ok(Object.is(scanned(text), Number(text)), text);
    for (const text of spellings)
      assert.ok(Object.is(scanned(text.replace('.', ','), ','), Number(text)), `${text} with a comma`);
  });

  it('gives the same double as the language for any number, in any of its spellings', () => {
    const number = fc.double({ noNaN: true, noDefaultInfinity: true });
    const law = fc.property(number, fc.integer({ min: 0, max: 20 }), (value, digits) => {
      for (const text of [String(value), value.toExponential(digits), value.toPrecision(digits + 1)]) {
        const wanted = Number(text);
        assert.ok(Object.is(scanned(text), Number.isFinite(wanted) ? wanted : undefined), text);
      }
    });
    fc.assert(law, { numRuns: 1500 });
  });

  it('gives the same double for any string of digits, mark and exponent', () => {
    const digits = fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: 1, maxLength: 24 });
    const law = fc.property(digits, digits, fc.integer({ min: -330, max: 300 }), (whole, part, power) => {
      const text = `${whole}.${part}e${power}`;
      const value = Number(text);
      assert.ok(Object.is(scanned(text), Number.isFinite(value) ? value : undefined), text);
    });
    fc.assert(law, { numRuns: 1500 });
  });

  it('stops at what is no number', () => {
    for (const text of [
      '-',
      '.',
      '+',
      'e5',
      '1e',
      '1e+',
      '1.2.3',
      '1,2',
      '0x10',
      '1 2',
      '--1',
      '1-',
      'nan',
      '1e999',
      '"1"',
      '1g',
    ]) {
      assert.equal(scanned(text), undefined, text);
    }
  });

  it('reads the same values with CRLF, blank lines, padding, a lone CR and no last line end', async () => {
    const lines = [
      't,x,y,z',
      ...Array.from(
        { length: 50 },
        (_, i) => `${(i / 100).toFixed(2)}, ${Math.sin(i)} ,${(i * 1e-3).toExponential()},1`,
      ),
    ];
    const plain = await recordingOf(lines.join('\n') + '\n');
    for (const text of [
      lines.join('\r\n'),
      lines.join('\r'),
      lines.join('\n\n'),
      lines.join('\r\n\r\n') + '\r\n',
      lines.join('  \n'),
    ]) {
      const other = await recordingOf(text);
      for (const name of ['x', 'y', 'z']) assert.deepEqual(samplesOf(other, name), samplesOf(plain, name));
    }
    assert.equal(samplesOf(plain, 'x')[7], Math.sin(7));
  });

  it('reads a file that ends anywhere within a piece as if it came whole', async () => {
    const text =
      't,x,y,z\n' +
      Array.from({ length: 30_000 }, (_, i) => `${(i / 400).toFixed(4)},${(i % 97) / 100},${i % 13},1.0`).join('\n') +
      '\n';
    const whole = await recordingOf(text);
    assert.equal(samplesOf(whole, 'x').length, 30_000);
    assert.ok(samplesOf(whole, 'x').every((value, i) => value === (i % 97) / 100));
  });

  interface Layout {
    readonly kinds: readonly ('number' | 'label' | 'skip')[];
    readonly delimiter: string;
    readonly tail: string;
    readonly lineEnd: string;
  }
  const layout: fc.Arbitrary<Layout> = fc.record({
    kinds: fc.array(fc.constantFrom('number', 'number', 'label', 'skip'), { minLength: 1, maxLength: 5 }),
    delimiter: fc.constantFrom(',', ';', '\t', ' '),
    tail: fc.constantFrom('', '|'),
    lineEnd: fc.constantFrom('\n', '\r\n', '\r'),
  });
  const number = fc.oneof(
    fc.integer({ min: -999, max: 999 }).map(String),
    fc.double({ min: -100, max: 100, noNaN: true }).map((value) => value.toFixed(4)),
    fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
    fc.constantFrom('', '+1.5', '1e3', '-2E-2', '.25', '7.', '123456789', '1234567890.125', '-0'),
  );
  const word = fc.constantFrom('a', 'left', 'x1', '-', '1a');
  const pad = fc.constantFrom('', '', ' ', '  ');

  interface Cells {
    readonly texts: readonly string[];
    readonly pads: readonly (readonly [string, string])[];
    readonly blankLines: number;
    readonly ended: boolean;
  }
  const cells: fc.Arbitrary<Cells> = fc.record({
    texts: fc
      .tuple(fc.array(number, { minLength: 5, maxLength: 5 }), fc.array(word, { minLength: 5, maxLength: 5 }))
      .map(([numbers, words]) => [...numbers, ...words]),
    pads: fc.array(fc.tuple(pad, pad), { minLength: 5, maxLength: 5 }),
    blankLines: fc.constantFrom(0, 0, 0, 1, 2),
    ended: fc.boolean(),
  });

  const textsOf = ({ kinds, delimiter }: Layout, { texts }: Cells): string[] =>
    kinds.map((kind, k) => {
      const text = texts[kind === 'number' ? k : 5 + k];
      // Where blanks part the fields none can be empty, and a line of nothing is blank.
      return (delimiter === ' ' || kinds.length === 1) && text === '' ? '0' : text;
    });
  const lineOf = (of: Layout, row: Cells): string => {
    const { delimiter, tail } = of;
    const fields = textsOf(of, row).map((text, k) => row.pads[k][0] + text + row.pads[k][1]);
    return fields.join(delimiter) + (row.ended ? tail : '');
  };
  const planOf = ({ kinds, delimiter, tail }: Layout, capacity: number): Plan => ({
    delimiter: delimiter.charCodeAt(0),
    blanks: delimiter === ' ',
    decimal: 46,
    tail: tail === '' ? 0 : tail.charCodeAt(0),
    sinks: kinds.map((kind) => new ColumnSink(kind, capacity)),
  });

  it('reads rows of numbers and words by any delimiter, with padding, blank lines and empty cells, and counts lines', () => {
    const law = fc.property(layout, fc.array(cells, { maxLength: 8 }), fc.nat(9), (of, rows, spare) => {
      const capacity = Math.max(1, rows.length - (spare > 7 ? 1 : 0));
      const blocks = rows.map((row) => lineOf(of, row) + of.lineEnd + of.lineEnd.repeat(row.blankLines));
      const before = 'xx,yy\n';
      const bytes = new TextEncoder().encode(`${before}${blocks.join('')}9,9,9`);
      const end = before.length + blocks.join('').length;
      const plan = planOf(of, capacity);
      const cursor = { at: before.length, row: 0, line: 7 };
      scan(bytes, cursor, end, capacity, plan);
      const kept = rows.slice(0, capacity);
      assert.equal(cursor.row, kept.length);
      // A full reader leaves the blank lines behind its last row for the next.
      const lines = kept.reduce((sum, { blankLines }) => sum + 1 + blankLines, 0);
      const left = rows.length > capacity ? kept[kept.length - 1].blankLines : 0;
      const isFull = kept.length === capacity && rows.length > 0;
      if (!isFull) assert.equal(cursor.at, end);
      assert.ok(cursor.line === 7 + lines - (isFull ? (kept.at(-1)?.blankLines ?? 0) : left));
      for (const [k, kind] of of.kinds.entries()) {
        const sink = plan.sinks[k];
        const texts = kept.map((row) => textsOf(of, row)[k]);
        if (kind === 'skip') continue;
        for (const [i, text] of texts.entries()) {
          if (kind === 'label') assert.equal(sink.labels[sink.values[i]], text);
          else assert.ok(Object.is(sink.values[i], text === '' ? NaN : Number(text)), `${text}: ${sink.values[i]}`);
        }
        if (kind === 'number') assert.equal(sink.empty, texts.includes(''));
      }
    });
    fc.assert(law, { numRuns: 1000 });
  });

  it('stops at the beginning of a line that is no row, with all before it read', () => {
    const good = '1;2;a\n3;4;b\n\n';
    for (const bad of [
      '1;x;a\n',
      '1;2\n',
      '1;2;a;4\n',
      '1;2;"a"\n',
      '"1";2;a\n',
      '1;2;\n',
      '1;2;a;\n',
      '1 2;3;a\n',
      ';;;\n',
    ]) {
      const bytes = new TextEncoder().encode(`${good}${bad}5;6;c\n\0`);
      const of: Layout = { kinds: ['number', 'number', 'label'], delimiter: ';', tail: '', lineEnd: '\n' };
      const cursor = { at: 0, row: 0, line: 1 };
      scan(bytes, cursor, bytes.length - 1, 10, planOf(of, 10));
      assert.deepEqual(cursor, { at: good.length, row: 2, line: 4 }, bad);
    }
    const blanks = new TextEncoder().encode('1 2 a\n1\n2 3 b\n\0');
    const cursor = { at: 0, row: 0, line: 1 };
    scan(
      blanks,
      cursor,
      blanks.length - 1,
      10,
      planOf({ kinds: ['number', 'number', 'label'], delimiter: ' ', tail: '', lineEnd: '\n' }, 10),
    );
    assert.deepEqual(cursor, { at: 6, row: 1, line: 2 });
  });

  it('takes one mark at the end of a row, with blanks behind it, and stops at a second', () => {
    const of: Layout = { kinds: ['number', 'number'], delimiter: ',', tail: ',', lineEnd: '\n' };
    const bytes = new TextEncoder().encode('1,2,\n3,4, \r\n5,6\n7,8,,\n\0');
    const cursor = { at: 0, row: 0, line: 1 };
    scan(bytes, cursor, bytes.length - 1, 10, planOf(of, 10));
    assert.deepEqual(cursor, { at: 16, row: 3, line: 4 });
  });

  it('takes tabs beside blanks for one gap where blanks part the fields, and for a delimiter where tabs do', () => {
    const read = (text: string, delimiter: string): number[][] => {
      const bytes = new TextEncoder().encode(`${text}\n\0`);
      const plan = planOf({ kinds: ['number', 'number'], delimiter, tail: '', lineEnd: '\n' }, 1);
      const cursor = { at: 0, row: 0, line: 1 };
      scan(bytes, cursor, bytes.length - 1, 1, plan);
      return cursor.row === 0 ? [] : plan.sinks.map(({ values }) => [...values]);
    };
    assert.deepEqual(read('\t1 \t 2\t', ' '), [[1], [2]]);
    assert.deepEqual(read('1\t2', '\t'), [[1], [2]]);
    assert.deepEqual(read('\t2', '\t'), [[NaN], [2]]);
    assert.deepEqual(read('1 2', '\t'), []);
    assert.deepEqual(read('1\t2', ';'), []);
  });
});

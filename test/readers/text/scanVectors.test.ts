import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { plainScan } from '../../../src/readers/text/plainScan.ts';
import type { Cursor, Plan } from '../../../src/readers/text/plan.ts';
import { scan } from '../../../src/readers/text/scan.ts';
import { ScanVectors } from '../../../src/readers/text/scanVectors.ts';
import { ColumnSink, type SinkKind } from '../../../src/readers/text/sink.ts';
import { StampReader } from '../../../src/readers/text/stamp.ts';
import { stampForm, type StampForm } from '../../../src/readers/text/stampForm.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));

interface Dialect {
  readonly kinds: readonly SinkKind[];
  readonly delimiter: string;
  readonly decimal: string;
  readonly tail: string;
  /** Of its stamps, unless they are a day and a clock. */
  readonly form?: StampForm;
}

const numbersOnly = (count: number): Dialect => ({
  kinds: Array<SinkKind>(count).fill('number'),
  delimiter: ';',
  decimal: '.',
  tail: '',
});

const planOf = ({ kinds, delimiter, decimal, tail, form }: Dialect, capacity: number): Plan => ({
  delimiter: delimiter.charCodeAt(0),
  blanks: delimiter === ' ',
  decimal: decimal.charCodeAt(0),
  tail: tail === '' ? 0 : tail.charCodeAt(0),
  sinks: kinds.map((kind) => {
    const stamps = kind === 'stamp' ? new StampReader(form ?? stampForm(['2024-05-01 12:00:00.125'])!) : undefined;
    return new ColumnSink(kind, capacity, stamps);
  }),
});

/** Reads a text to its end as a body does, a line that stops the scan passed over; what it held at each stop is told. */
function readBy(scanner: typeof scan, text: string, of: Dialect, capacity: number, from = 0): unknown {
  const bytes = new TextEncoder().encode(`${text}\0`);
  const end = bytes.length - 1;
  const plan = planOf(of, capacity);
  const cursor: Cursor = { at: from, row: 0, line: 1 };
  const stops: Cursor[] = [];
  for (;;) {
    scanner(bytes, cursor, end, capacity, plan);
    stops.push({ ...cursor });
    if (cursor.at >= end || cursor.row >= capacity) break;
    while (cursor.at < end && bytes[cursor.at] !== 10 && bytes[cursor.at] !== 13) cursor.at++;
    cursor.at = Math.min(end, cursor.at + (bytes[cursor.at] === 13 && bytes[cursor.at + 1] === 10 ? 2 : 1));
    cursor.line++;
  }
  return {
    stops,
    columns: plan.sinks.map(({ kind, values, empty, labels, stamps }) => ({
      kind,
      // Negative zero is told from zero.
      bits: kind === 'skip' ? [] : [...new BigUint64Array(values.buffer, values.byteOffset, cursor.row)],
      empty,
      labels,
      base: stamps?.base,
      zone: stamps?.zone,
    })),
  };
}

/** The rows that vectors take of a text, from its first on, and the values of its first column. */
function taken(text: string, of: Dialect): { readonly rows: number; readonly first: Float64Array } {
  const bytes = new TextEncoder().encode(`${text}\0`);
  const capacity = text.split('\n').length;
  const plan = planOf(of, capacity);
  const cursor: Cursor = { at: 0, row: 0, line: 1 };
  const vectors = ScanVectors.for(bytes, bytes.length - 1, plan);
  assert.ok(vectors);
  vectors.scan(cursor, capacity);
  return { rows: cursor.row, first: plan.sinks[0].values.subarray(0, cursor.row) };
}

const digits = (least: number, most: number): fc.Arbitrary<string> =>
  fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: least, maxLength: most });
const sign = fc.constantFrom('', '', '-', '+');
const exponent = fc.oneof(
  { weight: 3, arbitrary: fc.constant('') },
  fc
    .tuple(fc.constantFrom('e', 'E'), sign, digits(1, 3))
    .map(([mark, of, power]) => `${mark}${of}${power === '' ? '0' : power}`),
);
/** Any spelling of a number: up to 24 digits, with a mark, a sign and an exponent or without. */
const spelling = fc
  .tuple(sign, digits(0, 12), fc.boolean(), digits(0, 12), exponent)
  .map(([of, whole, isMarked, part, power]) => `${of}${whole}${isMarked ? '.' : ''}${part}${power}`)
  .filter((text) => /\d/.test(text.split(/e/i)[0]));
const number = fc.oneof(
  fc.integer({ min: -99_999, max: 99_999 }).map((value) => (value / 1000).toFixed(3)),
  spelling,
  fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
);
const stamp = fc.integer({ min: 0, max: 86_399_999 }).map((ms) => new Date(ms).toISOString().replace('T', ' '));
const text = fc.constantFrom('left', 'a b', 'x;y', '\u00b0C', '0x1', '-', 'seventeen letters and more');

/** How the stamps of a column are spelt. */
interface StampStyle {
  readonly delimiter: string;
  readonly tail: string;
  readonly date: string;
  readonly between: string;
  readonly mark: string;
  readonly zone: string;
}

const stampStyle: fc.Arbitrary<StampStyle> = fc.record({
  delimiter: fc.constantFrom(',', ';', '\t', '|', ' '),
  tail: fc.constantFrom('', '', ','),
  date: fc.constantFrom('-', '/', '.', 'none'),
  between: fc.constantFrom('T', ' ', '_'),
  mark: fc.constantFrom('.', ','),
  zone: fc.constantFrom('', 'Z', '+02:00', '-0530', '+00:00', '-00:00', ' UTC'),
});

interface StampParts {
  readonly at: Date;
  readonly fraction: string;
  /** What is odd about one, mostly nothing. */
  readonly odd: readonly [string | RegExp, string] | undefined;
}

const stampParts: fc.Arbitrary<StampParts> = fc.record({
  at: fc.oneof(
    // Rows of a recording lie within minutes; others may be anywhere.
    fc.integer({ min: 0, max: 300 }).map((s) => new Date(Date.UTC(2024, 1, 28, 23, 57, s))),
    fc.integer({ min: -62_000_000_000, max: 250_000_000_000 }).map((s) => new Date(1000 * s)),
  ),
  fraction: digits(0, 10),
  odd: fc.oneof(
    { weight: 12, arbitrary: fc.constant(undefined) },
    fc.constantFrom<readonly [string | RegExp, string]>(
      [/\d\d:/, '24:'],
      [/\d\d:/, '25:'],
      [/:\d\d:/, ':60:'],
      [/:\d\d(?=$|[^:\d])/, ':60'],
      [/:\d\d(?=$|[^:\d])/, ':61'],
      [/^\d\d/, '9'],
      [/^.{5}\d\d/, '2024-13'],
      [/^.{8}\d\d/, '2024-05-00'],
      [/:/, '-'],
      [/$/, ' '],
      [/$/, 'Z'],
      [/$/, ' PM'],
      [/Z$|$/, '+01:00'],
    ),
  ),
});

function stampIn({ date, between, mark, zone }: StampStyle, { at, fraction, odd }: StampParts): string {
  const [day, clock] = at.toISOString().slice(0, 19).split('T');
  const dated = date === 'none' ? clock : `${day.replaceAll('-', date)}${between}${clock}`;
  const whole = `${dated}${fraction === '' ? '' : mark + fraction}${zone}`;
  return odd === undefined ? whole : whole.replace(...odd);
}

interface Row {
  readonly numbers: readonly string[];
  readonly stamp: string;
  readonly text: string;
  readonly pads: readonly string[];
  readonly end: string;
  /** What is wrong with the row, mostly nothing. */
  readonly odd: string;
}

const row: fc.Arbitrary<Row> = fc.record({
  numbers: fc.array(fc.oneof({ weight: 9, arbitrary: number }, fc.constant('')), { minLength: 5, maxLength: 5 }),
  stamp,
  text,
  pads: fc.array(fc.constantFrom('', '', '', ' ', '  ', '\t'), { minLength: 2, maxLength: 2 }),
  end: fc.constantFrom('', '', '', '|', '| '),
  odd: fc.oneof(
    { weight: 20, arbitrary: fc.constant('') },
    fc.constantFrom('word', 'quoted', 'short', 'long', 'blank', 'mark', 'other mark', 'no digits'),
  ),
});

const dialect: fc.Arbitrary<Dialect> = fc.record({
  kinds: fc.array(fc.constantFrom<SinkKind>('number', 'number', 'number', 'label', 'skip', 'stamp'), {
    minLength: 1,
    maxLength: 5,
  }),
  delimiter: fc.constantFrom(',', ';', '\t', ' ', '|'),
  decimal: fc.constantFrom('.', '.', ','),
  tail: fc.constantFrom('', '', '|'),
});

function lineOf({ kinds, delimiter, decimal }: Dialect, { odd, pads, end, ...cells }: Row): string {
  if (odd === 'blank') return '';
  const fields = kinds.map((kind, k) => {
    if (kind === 'number') return cells.numbers[k].replace('.', decimal);
    return kind === 'stamp' ? cells.stamp : cells.text;
  });
  if (odd === 'word') fields[fields.length - 1] += 'g';
  if (odd === 'mark') fields[fields.length - 1] += decimal;
  if (odd === 'other mark') fields[0] = fields[0].replace(/[.,]/, (mark) => (mark === '.' ? ',' : '.'));
  if (odd === 'no digits') fields[0] = fields[0].replace(/\d/g, '');
  if (odd === 'quoted') fields[0] = `"${fields[0]}"`;
  if (odd === 'short') fields.pop();
  if (odd === 'long') fields.push('1');
  return fields.map((field) => pads[0] + field + pads[1]).join(delimiter) + end;
}

describe('the scanner with vectors', () => {
  it('reads any text as the plain one does, to the bit: values, empty cells, labels, stops and lines', () => {
    const lineEnd = fc.constantFrom('\n', '\n', '\r\n', '\r');
    const law = fc.property(
      dialect,
      lineEnd,
      fc.array(row, { maxLength: 30 }),
      fc.nat(12),
      fc.boolean(),
      (of, newline, rows, room, ended) => {
        const whole = rows.map((one) => lineOf(of, one)).join(newline) + (ended ? newline : '');
        const capacity = room > 8 ? room : rows.length + 1;
        // What is not ended is given one by the body.
        const given = ended ? whole : `${whole}\n`;
        assert.deepEqual(readBy(scan, given, of, capacity), readBy(plainScan, given, of, capacity));
      },
    );
    fc.assert(law, { numRuns: 3000 });
  });

  it('takes no row of plain numbers for what it is not once any of its bytes is another', () => {
    for (const of of [numbersOnly(4), { ...numbersOnly(3), decimal: ',' }, numbersOnly(1)]) {
      const cells = ['0.5', '-12.25', '+3', '.123456789012345'].slice(0, of.kinds.length);
      const line = `${cells.join(of.delimiter).replaceAll('.', of.decimal)}\n`;
      for (let at = 0; at < line.length; at++) {
        const all = Array.from(
          { length: 129 },
          (_, c) => line.slice(0, at) + String.fromCharCode(c) + line.slice(at + 1),
        );
        const text = `${line}${all.join(line)}${line}`;
        assert.deepEqual(readBy(scan, text, of, 700), readBy(plainScan, text, of, 700), `byte ${at} of ${line}`);
      }
    }
  });

  it('takes regular rows itself, whatever parts them and whatever stands around the numbers', () => {
    for (const [line, of] of [
      ['0.000313;-0.41132;1.5;-9.80665\n', numbersOnly(4)],
      ['12,5\t-3\t+0,25\r\n', { ...numbersOnly(3), delimiter: '\t', decimal: ',' }],
      ['  1.5   -2  3.25 \n', { ...numbersOnly(3), delimiter: ' ' }],
      ['1; 2 ;3 ;|\n', { ...numbersOnly(3), tail: ';' }],
      ['1;;-.5;7.\n\n', numbersOnly(4)],
      ['1e-3;-2.5E+04;1.234567890123456789e-03;0.30000000000000004\n', numbersOnly(4)],
      ['1;a text longer than a vector;left;\n', { ...numbersOnly(3), kinds: ['number', 'skip', 'label'], tail: ';' }],
      ['2024-05-01 12:00:00.250;1\n', { ...numbersOnly(2), kinds: ['stamp', 'number'] }],
    ] as const) {
      const lines = line.replace('|', '').repeat(7000);
      assert.equal(taken(lines, of).rows, 7000, line);
    }
  });

  it('reads stamps of any day, fraction and offset as the plain one does, to the bit', () => {
    let takenByLoop = 0;
    const law = fc.property(stampStyle, fc.array(stampParts, { minLength: 2, maxLength: 25 }), (style, all) => {
      const texts = all.map((parts) => stampIn(style, parts));
      const form = stampForm([stampIn(style, { at: all[0].at, fraction: '125', odd: undefined })]);
      assert.ok(form);
      const of: Dialect = {
        ...numbersOnly(3),
        ...{ kinds: ['number', 'stamp', 'number'], delimiter: style.delimiter, tail: style.tail, form },
      };
      const rows = texts.map((one, i) => [`${i}`, one, '-1.5'].join(style.delimiter) + style.tail);
      // The word stops the scan, after which it is known how the stamps are spelt.
      const whole = `${[rows[0], 'word', ...rows.slice(1)].join('\n')}\n`;
      assert.deepEqual(readBy(scan, whole, of, texts.length), readBy(plainScan, whole, of, texts.length), whole);
      const plan = planOf(of, texts.length);
      const bytes = new TextEncoder().encode(whole);
      const cursor: Cursor = { at: 0, row: 0, line: 1 };
      ScanVectors.for(bytes, bytes.length - 1, plan)!.scan(cursor, texts.length);
      if (plan.sinks[1].stamps?.steady !== undefined) takenByLoop++;
    });
    fc.assert(law, { numRuns: 4000 });
    assert.ok(takenByLoop > 1000);
  });

  it('reads stamps itself once it has seen one, where all are spelt as the first', () => {
    for (const [first, second] of [
      ['2024-02-29T23:59:59.999999Z', '2024-03-01T00:00:00.000312Z'],
      ['2024-12-31 23:59:60+01:00', '2025-01-01 00:00:00+01:00'],
      ['1969-12-31T23:59:59,5-0330', '1970-01-01T00:00:00,25-0330'],
      ['08:59:59.123456789', '24:00:00.0'],
    ]) {
      const form = stampForm([first])!;
      const of = { ...numbersOnly(2), kinds: ['stamp', 'number'] as const, form };
      const bytes = new TextEncoder().encode(`${first};1\n${`${second};2\n${first};3\n`.repeat(3)}\0`);
      const plan = planOf(of, 7);
      const cursor: Cursor = { at: 0, row: 0, line: 1 };
      ScanVectors.for(bytes, bytes.length - 1, plan)!.scan(cursor, 1);
      const { stamps } = plan.sinks[0];
      stamps!.read = () => assert.fail('the loop left a stamp to its sink');
      ScanVectors.for(bytes, bytes.length - 1, plan)!.scan(cursor, 7);
      assert.equal(cursor.row, 7, first);
      const plain = new StampReader(form);
      const encoded = [first, second].map((one) => new TextEncoder().encode(one));
      const values = encoded.map((one) => plain.read(one, 0, one.length));
      assert.deepEqual(
        [...plan.sinks[0].values],
        [0, 1, 0, 1, 0, 1, 0].map((which) => values[which]),
      );
    }
  });

  it('gives the double nearest to what is spelt, and knows it of all up to 19 digits near to one', () => {
    const law = fc.property(fc.array(spelling, { minLength: 1, maxLength: 20 }), (texts) => {
      const { rows, first } = taken(`${texts.join('\n')}\n`, numbersOnly(1));
      for (const [i, value] of first.entries()) assert.ok(Object.is(value, Number(texts[i])), texts[i]);
      const [, digitsOfStop = '', power = '0'] = /^[+-]?([\d.]+)(?:e(.*))?$/i.exec(texts[rows] ?? '') ?? [];
      const counted = digitsOfStop.replace('.', '').replace(/^0+/, '').length;
      assert.ok(rows === texts.length || counted > 19 || Math.abs(Number(power)) > 28, texts[rows]);
    });
    fc.assert(law, { numRuns: 2000 });
  });

  it('rounds numbers halfway between two doubles, and next to that, to the right one', () => {
    // Whole numbers of 54 to 63 bits, of which the lower half of the lost bits is the halfway.
    const law = fc.property(fc.bigInt(2n ** 52n, 2n ** 53n - 1n), fc.integer({ min: 1, max: 10 }), (kept, lost) => {
      const halfway = (kept << BigInt(lost)) + (1n << BigInt(lost - 1));
      const texts = [-1n, 0n, 1n].flatMap((by) => {
        const whole = String(halfway + by);
        // The same digits with a mark are halfway no more, but near to it now and then.
        return [
          whole,
          `${whole}e0`,
          `${whole.slice(0, 1)}.${whole.slice(1)}`,
          `${whole}e-20`,
          `${whole}e7`,
          `${whole}e-40`,
        ];
      });
      const { rows, first } = taken(`${texts.join('\n')}\n`, numbersOnly(1));
      assert.equal(rows, texts.length);
      for (const [i, value] of first.entries()) assert.ok(Object.is(value, Number(texts[i])), texts[i]);
    });
    fc.assert(law, { numRuns: 2000 });
    const halves = Array.from({ length: 400 }, (_, i) => `${2 ** 52 + i}.5`);
    const { rows, first } = taken(`${halves.join('\n')}\n`, numbersOnly(1));
    assert.equal(rows, halves.length);
    for (const [i, value] of first.entries()) assert.equal(value, Number(halves[i]));
  });

  it('is right for every power of ten that it knows', () => {
    for (let power = -60; power <= 45; power++) {
      const texts = Array.from(
        { length: 200 },
        (_, i) => `${1_234_567_890_123_456n + 98_765_432_109_876_543n * BigInt(i)}e${power}`,
      );
      const text = `${texts.join('\n')}\n`;
      const { rows, first } = taken(text, numbersOnly(1));
      const short = texts.filter((one) => one.indexOf('e') <= 19).length;
      assert.ok(short > 90);
      assert.equal(rows, power < -55 || power > 40 ? 0 : short, String(power));
      for (const [i, value] of first.entries()) assert.ok(Object.is(value, Number(texts[i])), texts[i]);
    }
  });

  it('reads rows that are cut at any byte where its memory ends', () => {
    const of: Dialect = {
      kinds: ['number', 'label', 'number', 'skip', 'number'],
      delimiter: ',',
      decimal: '.',
      tail: '',
    };
    const line = '0.000313,left,-0.30000000000000004,a b,\r\n1,right,,c,-2.5e-3\r\n\r\n';
    const lines = line.repeat(Math.ceil((1 << 16) / line.length) + 60);
    for (let from = 0; from < line.length; from++) {
      const capacity = 3 * (lines.length / line.length);
      const shifted = ' '.repeat(from) + lines;
      assert.deepEqual(readBy(scan, shifted, of, capacity), readBy(plainScan, shifted, of, capacity), String(from));
      // Bytes before the first are another's.
      const before = '9'.repeat(from) + lines;
      assert.deepEqual(readBy(scan, before, of, capacity, from), readBy(plainScan, before, of, capacity, from));
    }
  });

  it('reads rows longer than its memory, of as many columns as there may be', () => {
    for (const [columns, cell] of [
      [4096, '1.25'],
      [4096, `1.${'0'.repeat(40)}`],
      [1, ' '.repeat(70_000) + '5'],
    ] as const) {
      const text = `${Array<string>(columns).fill(cell).join(';')}\n`.repeat(3);
      const of = numbersOnly(columns);
      assert.deepEqual(readBy(scan, text, of, 4), readBy(plainScan, text, of, 4));
    }
  });

  it('gives the same where the host runs no compiled code', () => {
    const program = `
      import { ScanVectors } from './src/readers/text/scanVectors.ts';
      import { scan } from './src/readers/text/scan.ts';
      import { ColumnSink } from './src/readers/text/sink.ts';
      const bytes = new TextEncoder().encode('1.5;2\\n3;0.30000000000000004\\n\\0');
      const sinks = [new ColumnSink('number', 2), new ColumnSink('number', 2)];
      const plan = { delimiter: 59, blanks: false, decimal: 46, tail: 0, sinks };
      scan(bytes, { at: 0, row: 0, line: 1 }, bytes.length - 1, 2, plan);
      console.log(JSON.stringify([ScanVectors.for(bytes, 0, plan) === undefined, ...sinks.map(({ values }) => [...values])]));
    `;
    const options = ['--jitless', '--import=tsx', '--input-type=module', '--eval', program];
    const told = execFileSync(process.execPath, options, {
      cwd: root,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    assert.deepEqual(JSON.parse(told), [true, [1.5, 3], [2, 0.30000000000000004]]);
  });

  it('is the build of its source, byte for byte', () => {
    const options = ['scripts/wasm/build.mjs', '--print', 'scan'];
    const built = execFileSync(process.execPath, options, { cwd: root, encoding: 'utf8' });
    assert.equal(readFileSync(`${root}/src/readers/text/scanKernel.ts`, 'utf8'), built);
  });
});

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { parseCell } from '../../src/language/parser.ts';
import { printCell } from '../../src/language/printer.ts';
import { childrenOf, type Cell, type Node, type Pipeline } from '../../src/language/tree.ts';
import { vocabularyOf } from '../../src/language/vocabulary.ts';
import { catalogue } from './catalogue.ts';
import { withoutPlaces } from './plain.ts';
import { validCells } from './valid.ts';

const vocabulary = vocabularyOf(catalogue);
const parse = (text: string): Cell => parseCell(text, vocabulary);

/** A short writing of a tree: (op left right), [step verb items]. */
function shape(node: Node | Pipeline): string {
  if (!('type' in node)) return node.steps.map(shape).join(' | ');
  const inside = childrenOf(node).map(shape);
  switch (node.type) {
    case 'word':
      return node.text;
    case 'number':
      return node.unit ? `${node.value}_${node.unit.text}` : String(node.value);
    case 'unit':
    case 'stray':
      return node.type === 'unit' ? node.text : `?${node.text}`;
    case 'text':
      return `"${node.text}"`;
    case 'step':
      return `[${inside.join(' ')}]`;
    case 'binary':
      return `(${node.operator} ${inside.join(' ')})`;
    case 'missing':
      return `<${node.expected}>`;
    default:
      return `${node.type}(${inside.join(' ')})`;
  }
}

const shapes = (text: string): string[] =>
  parse(text).statements.map(({ name, pipeline }) => (name ? `${name.text} = ` : '') + shape(pipeline));
const first = (text: string): string => shapes(text)[0];

describe('parseCell', () => {
  it('reads steps, pipelines and names', () => {
    assert.equal(first('x = r | detrend linear | levels'), 'x = r | [detrend linear] | [levels]');
    assert.equal(
      first('band (spectrum r) 10..50 Hz, 50..100 Hz'),
      '[band bracket([spectrum r]) range(10 50_Hz) range(50 100_Hz)]',
    );
    assert.equal(first('bnd (spectrum r) 10..50 Hz'), '[bnd bracket([spectrum r]) range(10 50_Hz)]');
  });

  it('reads arithmetic with the usual precedence', () => {
    assert.equal(first('a + b*c^2^d - -e'), '(- (+ a (* b (^ c (^ 2 d)))) negative(e))');
    assert.equal(first('-a^2'), 'negative((^ a 2))');
    assert.equal(first('2*pi*sqrt(k/m) in Hz'), 'convert((* (* 2 pi) call(sqrt (/ k m))) Hz)');
  });

  it('takes what touches a number as its unit, and blanks as division', () => {
    assert.equal(first('40 N/mm'), '40_N/mm');
    assert.equal(first('40 N / m'), '(/ 40_N m)');
    assert.equal(first('40 N/k'), '(/ 40_N k)');
    assert.equal(first('5 m/s²'), '5_m/s²');
    assert.equal(first('(5 s) ^ 2'), '(^ bracket(5_s) 2)');
    assert.equal(first('5 s^2'), '5_s^2');
    assert.equal(first('50%'), '50_%');
    assert.equal(first('3 furlong'), '3_furlong');
  });

  it('tells inches from conversion', () => {
    assert.equal(first('5 in'), '5_in');
    assert.equal(first('5 in in mm'), 'convert(5_in mm)');
    assert.equal(first('5 in in'), 'convert(5 in)');
    assert.equal(first('0.5 in %'), 'convert(0.5 %)');
    assert.equal(first('x in (m/s^2)^2/Hz'), 'convert(x (m/s^2)^2/Hz)');
  });

  it('joins words with hyphens among operands, and subtracts in expressions', () => {
    assert.equal(first('window blackman-harris 1 s'), '[window blackman-harris 1_s]');
    assert.equal(first('x = a-b'), 'x = (- a b)');
    assert.equal(first('highpass r (a-b)'), '[highpass r bracket((- a b))]');
    assert.equal(first('plot r -1 s'), '[plot r negative(1_s)]');
    assert.equal(first('plot r - 1 s'), '[plot (- r 1_s)]');
  });

  it('reads ranges, picks, fields, channels by hand and repeated options', () => {
    assert.equal(first('trim runs[2] 5..80 s'), '[trim pick(runs 2) range(5 80_s)]');
    assert.equal(first('trim r 5 s..80 s'), '[trim r range(5_s 80_s)]');
    assert.equal(first('C.change'), 'field(C change)');
    assert.equal(first('(levels r).rms'), 'field(bracket([levels r]) rms)');
    assert.equal(first('load "a" channel x="sensor 2"'), '[load "a" channel assigned(x "sensor 2")]');
    assert.equal(first('plot S mark 4.4 Hz "wheel" mark 8 Hz'), '[plot S mark 4.4_Hz "wheel" mark 8_Hz]');
  });

  it('goes on over line ends after | , ( and before |', () => {
    assert.deepEqual(shapes('r\n  | detrend\n# why\n  | levels\nx'), ['r | [detrend] | [levels]', 'x']);
    assert.deepEqual(shapes('load "a",\n "b"\nx'), ['[load "a" "b"]', 'x']);
    assert.deepEqual(shapes('series(\n1 N/mm,\n2 N/mm\n)\r\nx'), ['call(series 1_N/mm 2_N/mm)', 'x']);
  });

  it('goes on over a line’s end after a comma, and over no blank line', () => {
    assert.equal(parse('channel r x,\ny').statements.length, 1);
    assert.equal(parse('channel r x,\n# and\ny').statements.length, 1);
    assert.equal(parse('channel r x,\n\nlevels r').statements.length, 2);
  });

  it('takes a thousand terms in a row, and no more', () => {
    const codesOf = (terms: number): string[] =>
      parse(`x = ${Array.from({ length: terms }, () => '1').join(' + ')}`).found.map(({ code }) => code);
    assert.deepEqual(codesOf(1001), []);
    assert.deepEqual(codesOf(1002), ['syntax.deep']);
  });

  it('does not let a half-typed list swallow what follows', () => {
    assert.deepEqual(shapes('plot A,\nx = levels r'), ['[plot A <operand>]', 'x = [levels r]']);
    assert.deepEqual(shapes('plot A,\n\nlevels r'), ['[plot A <operand>]', '[levels r]']);
    assert.deepEqual(shapes('x = (spectrum r\nlevels r'), ['x = bracket([spectrum r])', '[levels r]']);
  });

  it('says what is missing as a node', () => {
    assert.equal(first('x ='), 'x = <step>');
    assert.equal(first('r |'), 'r | <step>');
    assert.equal(first('trim r 5..'), '[trim r range(5 <end of range>)]');
    assert.equal(first('trim r, ..5 s'), '[trim r range(<value> 5_s)]');
    assert.equal(first('2 *'), '(* 2 <value>)');
    assert.equal(first('L.'), 'field(L <field>)');
    assert.equal(first('r['), 'pick(r <number>)');
    assert.equal(first('x in'), 'convert(x <unit>)');
  });

  it('gives the lines of statements', () => {
    assert.deepEqual(
      parse('a\n\n# x\r\nb\n | levels\nc').statements.map(({ line }) => line),
      [1, 4, 6],
    );
  });

  it('stands nonsense of any depth', () => {
    for (const text of [
      '('.repeat(5000),
      '-'.repeat(5000) + '1',
      'a+'.repeat(5000),
      '2^'.repeat(5000),
      'a.b'.repeat(3000),
      'sqrt('.repeat(3000),
      'r|'.repeat(3000),
      'x'.repeat(50000),
    ]) {
      assert.ok(parse(text).statements.length >= 1);
    }
  });
});

/** Every node's place lies inside the text and inside its parent. */
function holdPlaces(node: Node | Pipeline, from: number, to: number): void {
  assert.ok(
    node.place.from >= from && node.place.to <= to && node.place.from <= node.place.to,
    JSON.stringify({ node, from, to }),
  );
  childrenOf(node).forEach((child) =>
    holdPlaces(child, 'type' in node ? node.place.from : from, 'type' in node ? node.place.to : to),
  );
}

function holdCell(text: string): void {
  const cell = parse(text);
  for (const statement of cell.statements) holdPlaces(statement.pipeline, 0, text.length);
  for (const { place } of cell.found) assert.ok(place.from >= 0 && place.to <= text.length && place.from <= place.to);
}

const pieces = fc.constantFrom(
  'r',
  ' ',
  ' ',
  'trim',
  'band',
  '5',
  '80',
  's',
  'Hz',
  '..',
  ',',
  '|',
  '(',
  ')',
  '[',
  ']',
  '"a"',
  '"',
  '=',
  '-',
  '+',
  '*',
  '/',
  '^',
  '.',
  '%',
  '#',
  '\n',
  '\r\n',
  'in',
  'using',
  'hann',
  '²',
  'é',
  '𝛼',
  '“',
);

describe('parsing laws', () => {
  it('reads every prefix of a valid cell into a tree with places inside the text', () => {
    for (const cell of validCells)
      for (let length = 0; length <= cell.length; length++) holdCell(cell.slice(0, length));
  });

  it('reads any text at all', () => {
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 40 }), (list) => holdCell(list.join(''))),
      { numRuns: 500 },
    );
    fc.assert(fc.property(fc.string({ unit: 'grapheme', maxLength: 60 }), holdCell), { numRuns: 200 });
  });
});

describe('printing laws', () => {
  const same = (text: string): void => {
    const cell = parse(text);
    const printed = printCell(cell);
    assert.deepEqual(withoutPlaces(parse(printed).statements), withoutPlaces(cell.statements), printed);
    assert.deepEqual(
      parse(printed).comments.map((comment) => comment.text),
      cell.comments.map((comment) => comment.text.trimEnd()),
      printed,
    );
    assert.equal(printCell(parseCell(printed, vocabulary)), printed);
  };

  it('keeps the tree and the comments of valid cells, and prints its own text unchanged', () => {
    for (const cell of validCells) same(cell);
  });

  it('keeps the tree of any text, and is idempotent', () => {
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 30 }), (list) => same(list.join(''))),
      { numRuns: 1000 },
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...validCells),
        fc.nat(),
        fc.constantFrom('\n', ' ', '  # c\n', ',', '|', '-'),
        (cell, at, extra) => {
          const place = at % (cell.length + 1);
          same(cell.slice(0, place) + extra + cell.slice(place));
        },
      ),
      { numRuns: 1000 },
    );
  });
});

describe('printCell', () => {
  const cases: readonly (readonly [string, string])[] = [
    ['r=load   "a.csv" ,"b.csv"', 'r = load "a.csv", "b.csv"'],
    ['trim r 5 .. 80s', 'trim r 5..80 s'],
    ['x=2*pi* sqrt( k/m )in Hz', 'x = 2 * pi * sqrt(k / m) in Hz'],
    ['r|detrend|\nlevels', 'r | detrend\n  | levels'],
    ['r | # why\nlevels', 'r\n  | # why\n  levels'],
    ['load "a.csv",# one\n      "b.csv"   # two', 'load "a.csv", # one\n  "b.csv" # two'],
    ['\n\na\n\n\n\nb   # x  \n# y\n\n', 'a\n\nb # x\n# y'],
    ['load "a"  channel x = "s 2"', 'load "a" channel x="s 2"'],
    ['(a+ b) ^2', '(a + b)^2'],
    ['levels r )', 'levels r )'],
    ['max( 1,2 )', 'max(1, 2)'],
    ['a\r\nb  ', 'a\r\nb'],
  ];
  for (const [text, printed] of cases)
    it(`prints ${JSON.stringify(text)} canonically`, () =>
      assert.equal(printCell(parseCell(text, vocabulary)), printed));
});

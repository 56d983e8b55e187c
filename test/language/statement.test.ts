import { strict as assert } from 'node:assert';
import { parseCell } from '../../src/language/parser.ts';
import { childrenOf, type Cell, type Node, type Pipeline } from '../../src/language/tree.ts';
import { vocabularyOf } from '../../src/language/vocabulary.ts';
import { casesIn } from './cases.ts';
import { catalogue } from './catalogue.ts';

const vocabulary = vocabularyOf(catalogue);
const parse = (text: string): Cell => parseCell(text, vocabulary);

/** A short writing of a tree, in which what is missing stands in angle brackets and what is stray behind a question mark. */
function shape(node: Node | Pipeline): string {
  if (!('type' in node)) return node.steps.map(shape).join(' | ');
  const inside = childrenOf(node).map(shape).join(' ');
  switch (node.type) {
    case 'number':
      return node.unit ? `${node.value}_${inside}` : String(node.value);
    case 'stray':
      return `?${node.text}`;
    case 'word':
    case 'unit':
      return node.text;
    case 'text':
      return `"${node.text}"`;
    case 'step':
      return `[${inside}]`;
    case 'binary':
      return `(${node.operator} ${inside})`;
    case 'missing':
      return `<${node.expected}>`;
    default:
      return `${node.type}(${inside})`;
  }
}

describe('a statement', () => {
  // Its tree, the places of the statement and of its pipeline, and what is said of it.
  for (const [text, tree, places, told = ''] of casesIn('trees.txt'))
    it(`${text} is ${tree}`, () => {
      const { statements: read, found } = parse(text);
      assert.equal(read.length, 1);
      const [{ name, pipeline, place }] = read;
      assert.equal((name ? `${name.text} = ` : '') + shape(pipeline), tree);
      const spans = [place, pipeline.place].map(({ from, to }) => `${from}-${to}`);
      assert.equal(spans.join(' '), places);
      assert.equal(found.map(({ code, place: { from, to } }) => `${code} ${from}-${to}`).join(', '), told);
    });

  it('is given up where more than a thousand signs of one kind stand in a row, and the rest is passed over', () => {
    const repeated: readonly ((count: number) => string)[] = [
      (count) => `x = 1${' + 1'.repeat(count)}`,
      (count) => `x = 1${' * 2'.repeat(count)}`,
      (count) => `x = a${'.b'.repeat(count)}`,
      (count) => `x = a${'[1]'.repeat(count)}`,
      (count) => `x = 5${' in mm'.repeat(count)}`,
      (count) => `x = r${' | check'.repeat(count)}`,
      (count) => `x = 5 m${' coverage 95 %'.repeat(count)}`,
    ];
    const codes = (text: string): string[] => parse(text).found.map(({ code }) => code);
    for (const make of repeated) {
      assert.deepEqual(codes(make(1000)), [], make(2));
      assert.deepEqual(codes(make(1001)), ['syntax.deep'], make(2));
      assert.deepEqual(codes(make(1500)), ['syntax.deep'], make(2));
    }
  });

  it('is given up where more than a hundred brackets, signs or powers stand in each other', () => {
    const nested: readonly ((count: number) => string)[] = [
      (count) => `x = ${'('.repeat(count)}1${')'.repeat(count)}`,
      (count) => `x = ${'-'.repeat(count)}1`,
      (count) => `x = ${'max('.repeat(count)}1${')'.repeat(count)}`,
      (count) => `x = ${'2^'.repeat(count)}1`,
    ];
    const codes = (text: string): string[] => parse(text).found.map(({ code }) => code);
    for (const make of nested) {
      assert.deepEqual(codes(make(100)), [], make(2));
      assert.deepEqual(codes(make(101)), ['syntax.deep'], make(2));
    }
    // What closes lets the next open again.
    assert.deepEqual(codes(`x = ${'(1) + '.repeat(200)}1`), []);
  });

  it('has no unit of more than fifty pieces', () => {
    const unit = (count: number): string => `kg${'*m'.repeat(count)}`;
    const unitOf = (text: string): string => shape(parse(`x = 5 ${text}`).statements[0].pipeline);
    assert.equal(unitOf(unit(24)), `5_${unit(24)}`);
    assert.notEqual(unitOf(unit(25)), `5_${unit(25)}`);
  });

  it('offers straight quotes and the signs of the language for those of a text processor', () => {
    const fixes = (text: string): string[] =>
      parse(text).found.flatMap(({ fixes: all = [] }) =>
        all.map(({ title, place: { from, to }, text: instead }) => `${title}: ${from}-${to} ${instead}`),
      );
    assert.deepEqual(fixes('load “a.csv”'), ['Write straight quotes: 5-12 "a.csv"']);
    assert.deepEqual(fixes('load „a.csv“'), ['Write straight quotes: 5-12 "a.csv"']);
    assert.deepEqual(fixes('load "a.csv'), ['Add the missing ": 11-11 "']);
    assert.deepEqual(fixes('x = 3 × 4'), ['Write *: 6-7 *']);
    assert.deepEqual(fixes('x = 3 ÷ 4'), ['Write /: 6-7 /']);
    assert.deepEqual(fixes('plot a;b'), ['Write ,: 6-7 ,']);
    assert.deepEqual(fixes('x = 3 § 4'), []);
    assert.deepEqual(fixes('x = max(1'), ['Add the missing ): 9-9 )']);
    assert.deepEqual(fixes('x = a[1'), ['Add the missing ]: 7-7 ]']);
  });
});

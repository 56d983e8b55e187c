import { strict as assert } from 'node:assert';
import { checkCells } from '../../src/engine/checkCells.ts';
import type { CheckedNotebook } from '../../src/language/check.ts';
import { printCell } from '../../src/language/printer.ts';
import { languageService } from '../../src/language/service.ts';
import { catalogue } from '../../src/verbs/catalogue.ts';
import { holdToGrowth } from '../growth.ts';

const lines = (size: number, line: (index: number) => string): string =>
  Array.from({ length: size }, (_, index) => line(index)).join('\n');

/** Texts of cells that no hand writes; each of so many pieces of one kind. */
const hard: Readonly<Record<string, (size: number) => readonly string[]>> = {
  commas: (size) => [`plot ${','.repeat(size)}`],
  'names in a list': (size) => [`plot ${'a, '.repeat(size)}`],
  'words in a row': (size) => [`plot ${'a '.repeat(size)}`],
  'words in a row without their quotes': (size) => [`load "a" ${'foo '.repeat(size)}`],
  'numbers in a row': (size) => [`plot ${'1 '.repeat(size)}`],
  'ranges in a row': (size) => [`plot a ${'1..'.repeat(size)}`],
  'options given again': (size) => [`load "a" ${'rate 1 Hz '.repeat(size)}`],
  'steps of a pipe': (size) => [`load "a.csv" ${'| detrend '.repeat(size)}`],
  'empty steps': (size) => [`a ${'|'.repeat(size)}`],
  'conversions to inches': (size) => [`x = 5 ${'in '.repeat(size)}`],
  'signs that mean nothing, a line each': (size) => ['§\n'.repeat(size)],
  'greater-than signs': (size) => ['>'.repeat(size)],
  'opening brackets': (size) => ['('.repeat(size)],
  'closed brackets': (size) => [`x = ${'('.repeat(size)}1${')'.repeat(size)}`],
  'opening square brackets': (size) => [`plot ${'['.repeat(size)}`],
  'names in a circle': (size) => [lines(size, (i) => `x${i} = x${(i + 1) % size} + 1`)],
  'names in a chain, the last first': (size) => [lines(size, (i) => `x${size - i} = x${size - i - 1} + 1`)],
  'names that nothing binds': (size) => [lines(size, (i) => `x${i} = y${i} + 1`)],
  'cells of names that nothing binds': (size) => Array.from({ length: size }, (_, i) => `x${i} = trim y${i} 1..2 s`),
  'wrong lines of load': (size) => ['x = load "a.csv" channel 3 g foo bar\n'.repeat(size)],
  cells: (size) => Array.from({ length: size }, (_, i) => `x${i} = ${i}`),
  'cells that bind one name': (size) => Array.from({ length: size }, () => 'x = 1'),
};

const service = languageService(catalogue);

describe('the check of a notebook of whatever text', () => {
  for (const [name, make] of Object.entries(hard))
    it(`takes as long as the text: ${name}`, () => holdToGrowth(make, 2500, (cells) => checkCells(cells)));

  it('takes no longer where statements stand beyond those that are read', () => {
    const line = 'x = load "a.csv" channel 3 g foo bar\n';
    const [read, beyond] = [10_000, 100_000].map((size) => {
      const { statements } = service.parse(line.repeat(size));
      return statements.reduce((sum, { pieces }) => sum + pieces.length, 0);
    });
    // One piece for all that is not read.
    assert.equal(beyond, read + 1);
  });

  it('finds folds in as long as the text', () =>
    holdToGrowth(
      (size) => service.parse('1 + 1\n'.repeat(size)),
      5000,
      (cell) => service.foldsOf(cell),
    ));

  it('says in one sentence that a list or a cell is too long, whatever it is made of', () => {
    const texts: Readonly<Record<string, string>> = {
      commas: `plot ${','.repeat(30_000)}`,
      names: `plot ${'a, '.repeat(30_000)}`,
      words: `plot ${'a '.repeat(30_000)}`,
      ranges: `plot a ${'1..'.repeat(30_000)}`,
      'a function’s values': `max(${'1, '.repeat(30_000)}1)`,
      options: `load "a" ${'rate 1 Hz '.repeat(30_000)}`,
      statements: lines(30_000, (i) => `x${i} = ${i}`),
      'signs that mean nothing, a line each': '§\n'.repeat(30_000),
    };
    for (const [name, text] of Object.entries(texts)) {
      const [found] = checkCells([text]).problems;
      assert.equal(found.filter(({ code }) => code === 'syntax.long').length, 1, name);
      // What lies beyond the end of reading has no messages of its own.
      assert.ok(found.length <= 20_001, `${name}: ${found.length} messages`);
    }
  });

  it('reads lists of ten thousand items, and as many statements, whole', () => {
    const codes = (text: string): readonly string[] =>
      checkCells([text])
        .problems[0].map(({ code }) => code)
        .filter((code) => code !== 'name.unused');
    assert.deepEqual(codes(`max(${'1, '.repeat(9_999)}1)`), []);
    assert.deepEqual(codes(`load ${'"a", '.repeat(9_999)}"a"`), []);
    assert.deepEqual(codes(lines(10_000, (i) => `x${i} = ${i}`)), []);
    assert.deepEqual(codes(`load ${'"a", '.repeat(10_000)}"a"`), ['syntax.long']);
    assert.deepEqual(codes(lines(10_001, (i) => `x${i} = ${i}`)), ['syntax.long']);
  });

  it('reads twenty thousand statements of a notebook, and says in each cell beyond them that it is not read', () => {
    const codes = ({ problems }: CheckedNotebook): readonly (readonly string[])[] =>
      problems.map((found) => found.map(({ code }) => code).filter((code) => code !== 'name.unused'));
    const full = Array.from({ length: 4 }, (_, cell) => lines(5000, (i) => `x${cell}_${i} = ${i}`));
    const whole = checkCells(full);
    assert.deepEqual(codes(whole), [[], [], [], []]);
    const over = checkCells([...full, 'y = 1 + 1', '\n# a remark\n', 'z = 2 +'], whole);
    assert.deepEqual(codes(over), [[], [], [], [], ['syntax.long'], [], ['syntax.long']]);
    assert.match(over.problems[4][0].message, /notebook is read up to 20000 statements.*several notebooks/);
    assert.ok(over.statements.at(-1)?.expression === undefined);
    // What an edit above leaves room for is read.
    const shorter = checkCells([...full.slice(0, 3), 'x = 1', ...over.cells.slice(4).map(({ text }) => text)], over);
    assert.deepEqual(codes(shorter).slice(4), [[], [], ['syntax.missing']]);
    const longer = checkCells([...over.cells.map(({ text }) => text)].reverse(), shorter);
    assert.deepEqual(codes(longer).at(-1), ['syntax.long']);
    assert.deepEqual(codes(longer)[2], []);
  });

  const printed: Readonly<Record<string, (size: number) => string>> = {
    'a comment a line': (size) => lines(size, (i) => `# ${i}`),
    'a comment behind each statement': (size) => lines(Math.min(size, 10_000), (i) => `x${i} = ${i} # ${i}`),
    'comments below statements': (size) => `${lines(9000, (i) => `x${i} = ${i}`)}\n${lines(size, (i) => `# ${i}`)}`,
    'comments inside a statement': (size) => `plot a |\n${lines(size, (i) => `# ${i}`)}\n mark 1 Hz`,
  };
  for (const [name, make] of Object.entries(printed))
    it(`formats a cell in as long as its text: ${name}`, () =>
      holdToGrowth((size) => service.parse(make(size)), 20_000, printCell));

  it('leaves what is not read as it stands when the cell is formatted', () => {
    const text = lines(10_002, (i) => `x${i}   =   ${i}`);
    const tail = text.split('\n').slice(10_000).join('\n');
    assert.ok(printCell(service.parse(text)).endsWith(tail));
  });

  it('says in one sentence that a text is beyond reading', () => {
    for (const text of [
      `load "a.csv" ${'| detrend '.repeat(100_000)}`,
      `x = ${'('.repeat(1001)}1${')'.repeat(1001)}`,
      `x = 5 ${'in '.repeat(100_000)}`,
    ]) {
      const [found] = checkCells([text]).problems;
      if (found.filter(({ code }) => code === 'syntax.deep').length !== 1)
        throw new Error(JSON.stringify(found.slice(0, 3)));
    }
  });
});

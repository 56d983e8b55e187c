import { strict as assert } from 'node:assert';
import type { Literal } from '../../../src/charts/handle.ts';
import { Engine } from '../../../src/engine/engine.ts';
import { MemoryHost, quietWatch, recording } from '../memoryFiles.ts';

const engine = new Engine(new MemoryHost({ 'raw/a.csv': recording() }));
const runs = 'runs = load "raw/a.csv" | channel z';

/** The literals of the last statement's charts. */
async function literals(cells: readonly string[]): Promise<Literal[]> {
  const report = await engine.run({ cells, wanted: 'all' }, quietWatch);
  return engine.handles(report.results.at(-1)!).flatMap(({ ends }) => ends.flatMap(({ literal }) => literal ?? []));
}

/** The text of the literal's cell with the number written in it, or why it is not. */
function written(cells: readonly string[], literal: Literal, text: string): string {
  const edit = engine.rewrite(cells, literal, text);
  if (!edit.ok) return edit.failure.message;
  const { cell, from, to, text: made } = edit.value;
  return cells[cell].slice(0, from) + made + cells[cell].slice(to);
}

describe('a literal that is moved', () => {
  const cells = [runs, '# both\npart = trim runs 2..18 s\nplot part'];
  let start: Literal;
  let end: Literal;
  before(async () => {
    [start, end] = await literals(cells);
  });

  it('is written alone, its unit and all around it kept', () => {
    assert.equal(written(cells, start, '2.5'), '# both\npart = trim runs 2.5..18 s\nplot part');
    assert.equal(written(cells, end, '17'), '# both\npart = trim runs 2..17 s\nplot part');
  });

  it('is found again below a new comment, in a cell that has moved, under another name, and once it was edited', () => {
    for (const [text, expected] of [
      ['# one\n# two\npart = trim runs 2..18 s\nplot part', '# one\n# two\npart = trim runs 3..18 s\nplot part'],
      ['bit = trim runs 2..18 s', 'bit = trim runs 3..18 s'],
      ['part = trim runs 4..18 s', 'part = trim runs 3..18 s'],
      ['part = runs | trim 2..18 s', 'part = runs | trim 3..18 s'],
    ])
      assert.equal(written([text, runs], { ...start, cell: 0 }, '3'), expected);
  });

  it('is told from the same number of another statement', () => {
    const twice = [runs, 'a = trim runs 2..18 s\npart = trim runs 2..18 s\nplot part'];
    assert.equal(written(twice, start, '3'), 'a = trim runs 2..18 s\npart = trim runs 3..18 s\nplot part');
  });

  it('is refused where it is gone, can not be told from others, or has another unit', () => {
    assert.match(written([runs, 'plot runs'], start, '3'), /The 2 of trim no longer stands where this chart drew it/);
    assert.match(written([runs], start, '3'), /no longer stands/);
    const two = [runs, 'a = trim runs 2..17 s\nb = trim runs 2..16 s'];
    assert.match(written(two, start, '3'), /no longer stands/);
    assert.match(written([runs, 'part = trim runs 2000 ms..18 s'], start, '3'), /in ms by now \(2000\), and was in s/);
  });

  it('is a number bound to a name as well', async () => {
    const named = [runs, 'begin = 3 s', 'plot (trim runs from begin)'];
    const [literal] = await literals(named);
    assert.equal(written(named, literal, '4'), 'begin = 4 s');
    assert.match(written([runs, 'other = 1', named[2]], literal, '4'), /The 3 of begin no longer stands/);
  });
});

import { strict as assert } from 'node:assert';
import { cellNameOf, cellWords } from '../../src/language/cellName.ts';
import { checkNotebook } from '../../src/language/check.ts';
import { catalogue } from './catalogue.ts';

const wordsOf = (text: string): string => cellWords(cellNameOf({ cells: [{ text }], numbers: [7] }, 0));

describe('a cell for a reader', () => {
  it('is counted as the reader counts, and called by the remark in its first line', () => {
    assert.equal(wordsOf('# Foam on bricks\nx = 1'), 'cell 7, Foam on bricks');
    assert.equal(wordsOf('  ##  Foam\r\nx = 1'), 'cell 7, Foam');
    for (const text of ['', '#', 'x = 1', '\n# below', 'x = 1 # beside']) assert.equal(wordsOf(text), 'cell 7');
  });

  it('has a long remark shortened', () => {
    const words = wordsOf(`# ${'long '.repeat(20)}`);
    assert.match(words, /^cell 7, long .*lo…$/);
    assert.ok(words.length < 60);
  });

  it('is counted anew when cells that are none of ours come or go', () => {
    const cells = ['# Load\nx = 1', 'x = 2'];
    const said = (numbers?: readonly number[], before = checkNotebook(cells, catalogue, undefined, [5, 9])) =>
      checkNotebook(cells, catalogue, before, numbers).problems[1][0].message;
    assert.match(said(), /bound in cell 1, Load, line 2;/);
    assert.match(said([2, 4]), /bound in cell 2, Load, line 2;/);
    assert.match(said([5, 9]), /bound in cell 5, Load, line 2;/);
  });
});

import { strict as assert } from 'node:assert';
import { standsUnchanged } from '../../src/editor/language/unchanged.ts';
import { checkCells } from '../../src/engine/checkCells.ts';

const then = checkCells(['foam = load "a.csv"', 'part = trim foam 2..5 s\nS = spectrum part', 'k = 3 N/mm']);

describe('what was known of a name', () => {
  it('holds while its statement and all that it is made of read as before', () => {
    const now = checkCells(['# a word before\nfoam = load "a.csv"', 'part = trim foam 2..5 s\nS = spectrum part']);
    assert.ok(standsUnchanged('S', then, now));
  });

  it('falls with a statement that it is made of, however far back', () => {
    const now = checkCells(['foam = load "b.csv"', 'part = trim foam 2..5 s\nS = spectrum part', 'k = 3 N/mm']);
    assert.ok(!standsUnchanged('S', then, now));
    assert.ok(standsUnchanged('k', then, now));
  });

  it('is nothing for a name that is not bound now, or was not then', () => {
    const now = checkCells(['foam = load "a.csv"', 'other = trim foam 2..5 s']);
    assert.ok(!standsUnchanged('part', then, now));
    assert.ok(!standsUnchanged('other', then, now));
  });

  it('ends on names that need each other', () => {
    const circle = checkCells(['a = b + 1\nb = a * 2']);
    assert.ok(standsUnchanged('a', circle, checkCells(['a = b + 1', 'b = a * 2'])));
  });
});

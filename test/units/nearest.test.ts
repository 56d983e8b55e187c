import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { nearest } from '../../src/units/nearest.ts';

/** The restricted distance of Damerau 1964 by its recurrence over whole words. */
function whole(a: string, b: string): number {
  const d = Array.from({ length: a.length + 1 }, (_, i) => Array.from({ length: b.length + 1 }, (_x, j) => i + j));
  for (let i = 1; i <= a.length; i++)
    for (let j = 1; j <= b.length; j++) {
      d[i][j] = Math.min(d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
    }
  return d[a.length][b.length];
}

describe('nearest', () => {
  const verbs = ['load', 'levels', 'detrend', 'trim', 'spectrum', 'spectrogram', 'band', 'table'];
  it('finds the word that was meant', () => {
    assert.equal(nearest('levls', verbs)[0], 'levels');
    assert.equal(nearest('specturm', verbs)[0], 'spectrum');
    assert.equal(nearest('tirm', verbs)[0], 'trim');
    assert.equal(nearest('Load', verbs)[0], 'load');
  });
  it('offers nothing for a word unlike all of them', () => {
    assert.deepEqual(nearest('quux', verbs), []);
    assert.deepEqual(nearest('a', ['b', 'c']), []);
  });
  it('names a candidate once, however often it stands there', () => {
    assert.deepEqual(nearest('levls', ['levels', 'load', 'levels']), ['levels']);
  });
  it('takes words by their whole distance, whatever they begin and end with', () => {
    const word = fc
      .array(fc.constantFrom('a', 'b', 'c'), { minLength: 8, maxLength: 12 })
      .map((letters) => letters.join(''));
    fc.assert(
      fc.property(word, word, (a, b) => {
        const far = whole(a, b) + (a[0] === b[0] ? 0 : 0.2);
        assert.equal(nearest(a, [b]).length, a !== b && far <= 3.5 ? 1 : 0);
      }),
    );
  });
});

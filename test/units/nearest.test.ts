import { strict as assert } from 'node:assert';
import { nearest } from '../../src/units/nearest.ts';

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
});

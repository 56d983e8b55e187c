import { strict as assert } from 'node:assert';
import { printedUnit } from '../../../src/values/number.ts';
import {
  axisTitle,
  bandName,
  channelQuantity,
  quantityName,
  windowWords,
  sentence,
} from '../../../src/charts/words/names.ts';
import { counted, listed } from '../../../src/result/words.ts';
import { g, hertzUnit, madeRun, plainUnit } from '../madeUp.ts';

describe('names of what is measured', () => {
  it('print powers of a unit as superscripts', () => {
    assert.deepEqual(['g^2/Hz', '(m/s^2)^2/Hz', 'm/s^1.75', 'N/mm', 's^-1', 'g^2*m'].map(printedUnit), [
      'g²/Hz',
      '(m/s²)²/Hz',
      'm/s¹·⁷⁵',
      'N/mm',
      's⁻¹',
      'g²·m',
    ]);
  });

  it('know the quantity by its dimension, and do not guess one', () => {
    assert.equal(quantityName(g.dimension), 'acceleration');
    assert.equal(quantityName(hertzUnit.dimension), 'frequency');
    assert.equal(quantityName(plainUnit.dimension), 'signal');
    assert.equal(quantityName({ ...plainUnit.dimension, count: 1 }), 'raw counts');
  });

  it('name the frequency weighting with the quantity', () => {
    const { channels } = madeRun('a1', 1);
    assert.equal(channelQuantity({ ...channels[0], weighting: 'Wk' }), 'Wk-weighted acceleration');
  });

  it('title an axis with quantity and unit, and a plain number with the quantity alone', () => {
    assert.equal(axisTitle('acceleration spectral density', 'g^2/Hz'), 'Acceleration spectral density (g²/Hz)');
    assert.equal(axisTitle('coherence', plainUnit), 'Coherence');
  });

  it('name a band by its edges, a fractional octave by its middle', () => {
    assert.equal(bandName({ from: 10, to: 50 }), '10–50 Hz');
    assert.equal(bandName({ from: 28.18, to: 35.48, label: '31.5' }), '31.5 Hz');
  });

  it('call a window by its man, with a capital, where it has one', () => {
    const words = (shape: 'hann' | 'blackman-harris' | 'flattop'): string =>
      windowWords({ kind: 'window', shape, length: 2, overlap: 0.5 });
    assert.equal(words('hann'), 'Hann window of 2 s, overlap 50 %');
    assert.match(words('blackman-harris'), /^Blackman-Harris window/);
    assert.match(words('flattop'), /^flat-top window/);
  });

  it('join and count in English', () => {
    assert.deepEqual(
      [listed([]), listed(['a']), listed(['a', 'b']), listed(['a', 'b', 'c'])],
      ['', 'a', 'a and b', 'a, b and c'],
    );
    assert.deepEqual([counted(1, 'run'), counted(4, 'run')], ['1 run', '4 runs']);
  });

  it('end a sentence with one full stop', () =>
    assert.deepEqual(['welch t', 'Band r.m.s.'].map(sentence), ['Welch t.', 'Band r.m.s.']));
});

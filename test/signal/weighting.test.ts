import { strict as assert } from 'node:assert';
import { levels } from '../../src/signal/levels.ts';
import { fullFrom, weighted, weightingNames, weightingResponse } from '../../src/signal/weighting.ts';
import { near, record } from '../published/vectors.ts';

const tone = (count: number, rate: number, frequency: number): Float64Array =>
  Float64Array.from({ length: count }, (_, n) => Math.SQRT2 * Math.sin((2 * Math.PI * frequency * n) / rate));

describe('weighted', () => {
  it('scales a tone by |H|, right up to half the rate', () => {
    for (const name of weightingNames) {
      for (const frequency of [1, 8, 31, 80, 170]) {
        const samples = tone(3500, 350, frequency);
        const { rms } = levels(weighted(name, samples, 350, new Float64Array(3500)));
        const { re, im } = weightingResponse(name, frequency);
        assert.ok(Math.abs(rms - Math.hypot(re, im)) < 1e-13, `${name} ${frequency} Hz`);
      }
    }
  });

  it('takes gravity out by itself', () => {
    const samples = record(4, 999);
    const found = weighted('wk', samples, 350, new Float64Array(999));
    assert.ok(Math.abs(levels(found).mean) < 1e-15);
    near(
      weighted(
        'wk',
        samples.map((value) => value + 9.81),
        350,
        new Float64Array(999),
      ),
      found,
      1e-12,
    );
  });

  it('works in place, and of nothing gives nothing', () => {
    const samples = record(4, 100);
    const apart = weighted('wd', samples, 350, new Float64Array(100));
    assert.deepEqual(weighted('wd', samples, 350, samples), apart);
    assert.equal(weighted('wd', new Float64Array(0), 350, new Float64Array(0)).length, 0);
  });
});

describe('where a weighting counts in full from', () => {
  it('is the lowest frequency at which its factor is within a tenth of its largest', () => {
    const factor = (name: (typeof weightingNames)[number], frequency: number): number => {
      const { re, im } = weightingResponse(name, frequency);
      return Math.hypot(re, im);
    };
    for (const name of weightingNames) {
      const from = fullFrom(name);
      const largest = Math.max(...Array.from({ length: 4000 }, (_, k) => factor(name, 0.02 * 1.003 ** k)));
      assert.ok(factor(name, from) >= 0.899 * largest, name);
      assert.ok(factor(name, from / 1.021) < 0.9 * largest, name);
    }
    // ISO 2631-1:1997, table 3: Wk is 967 thousandths at 4 Hz and 804 at 3.15 Hz, its largest 1054 at 6.3 Hz.
    assert.ok(fullFrom('wk') > 3.15 && fullFrom('wk') < 4);
  });
});

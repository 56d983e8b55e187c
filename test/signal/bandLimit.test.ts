import { strict as assert } from 'node:assert';
import { bandLimited } from '../../src/signal/bandLimit.ts';

const wave = (cycles: number): Float64Array =>
  Float64Array.from({ length: 3000 }, (_, n) => 1 + Math.sin(2 * Math.PI * cycles * n));

describe('a piece that is limited to a band', () => {
  it('keeps what lies below without ripple, its mean included, and nothing of what lies above', () => {
    const kept = bandLimited(wave(0.2), 0.33, 0.4);
    const gone = bandLimited(wave(0.42), 0.33, 0.4);
    for (let n = 300; n < 2700; n++) {
      assert.ok(Math.abs(kept[n] - wave(0.2)[n]) < 2e-4, `${n}: ${kept[n]}`);
      assert.ok(Math.abs(gone[n] - 1) < 2e-4, `${n}: ${gone[n]}`);
    }
  });
});

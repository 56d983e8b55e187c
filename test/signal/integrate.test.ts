import { strict as assert } from 'node:assert';
import { integrate, integrationEdge } from '../../src/signal/integrate.ts';
import { levels } from '../../src/signal/levels.ts';
import { close, near, record } from '../published/vectors.ts';

const tone = (count: number, rate: number, frequency: number): Float64Array =>
  Float64Array.from({ length: count }, (_, n) => Math.SQRT2 * Math.sin((2 * Math.PI * frequency * n) / rate));

describe('integrate', () => {
  it('of 0.30 g rms at 20 Hz gives 23.41 mm/s and 0.1863 mm rms', () => {
    const samples = tone(4000, 400, 20).map((value) => 0.3 * 9.80665 * value);
    close(levels(integrate(samples, 400, 1, 2, new Float64Array(4000))).rms * 1000, 23.41, 2e-4);
    close(levels(integrate(samples, 400, 2, 2, new Float64Array(4000))).rms * 1000, 0.1863, 2e-4);
  });

  it('once and once more is twice', () => {
    // An odd length: at half the rate a real record could not be turned by a quarter.
    const samples = record(8, 351);
    const once = integrate(samples, 350, 1, 5, new Float64Array(351));
    near(integrate(once, 350, 1, 5, once), integrate(samples, 350, 2, 5, new Float64Array(351)), 1e-12);
  });

  it('knows nothing of the ends but what integrationEdge says: there a longer stretch gives the same', () => {
    const rate = 100;
    const whole = record(3, 3000);
    const part = whole.subarray(1000, 2000);
    for (const times of [1, 2] as const) {
      const long = integrate(whole, rate, times, 1, new Float64Array(3000)).subarray(1000, 2000);
      const short = integrate(part, rate, times, 1, new Float64Array(1000));
      const edge = integrationEdge(times, 1) * rate;
      const size = levels(long).rms;
      const off = (n: number): number => Math.abs(short[n] - long[n]) / size;
      for (let n = edge; n < 1000 - edge; n++) assert.ok(off(n) < 0.01, `${off(n)} at ${n}`);
      assert.ok(off(0) > 0.05);
    }
  });

  it('refuses a low cut at 0 or past half the rate', () => {
    for (const cut of [0, -1, 175, NaN])
      assert.throws(() => integrate(new Float64Array(9), 350, 1, cut, new Float64Array(9)), /low cut/);
  });
});

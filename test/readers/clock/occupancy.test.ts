import { strict as assert } from 'node:assert';
import { byOccupancy } from '../../../src/readers/clock/occupancy.ts';
import { leastRate } from '../../../src/readers/clock/losses.ts';
import { randomOf } from '../../fuzz/mutate.ts';

/** Stamps in whole ms of even samples, of which a share is lost at random. */
function stamps(rate: number, count: number, share: number): Float64Array {
  const random = randomOf(7);
  const all = Array.from({ length: count }, (_, i) => Math.floor((1000 * i) / rate + 0.3) / 1000);
  return Float64Array.from(all.filter(() => random() >= share));
}

describe('a rate by what each unit of the stamps holds', () => {
  it('is found within 0.01 % below one sample a unit and above, however many are lost', () => {
    for (const rate of [900.7, 1250.6, 1600.9])
      for (const share of [0.03, 0.1, 0.2]) {
        const t = stamps(rate, 4000, share);
        const found = byOccupancy(t, 1e-3, leastRate(t, 1e-3));
        assert.ok(Math.abs(found!.rate / rate - 1) < 1e-4, `${rate} Hz, ${share}: ${found?.rate}`);
        const missing = found!.breaks.reduce((sum, one) => sum + (one.missing ?? 0), 0);
        assert.ok(Math.abs(missing / (4000 - t.length) - 1) < 0.02, `${missing} of ${4000 - t.length}`);
      }
  }).timeout(30_000);

  it('is the mean one of a clock that drifts, which keeps step over pieces alone', () => {
    const [count, drift] = [20_000, 1e-4];
    for (const rate of [900.7, 1250.6]) {
      const random = randomOf(7);
      // Each step is longer than the one before, the last by the drift than the first.
      const all = Array.from({ length: count }, (_, i) => (i + (drift * i * i) / (2 * count)) / rate);
      const t = Float64Array.from(all, (at) => Math.floor(1000 * at + 0.3) / 1000).filter(() => random() >= 0.05);
      const found = byOccupancy(t, 1e-3, leastRate(t, 1e-3));
      assert.ok(found, `${rate} Hz is not found`);
      assert.ok(Math.abs(found.rate / (rate / (1 + drift / 2)) - 1) < 1e-6, `${found.rate} Hz`);
      const missing = found.breaks.reduce((sum, one) => sum + (one.missing ?? 0), 0);
      assert.ok(Math.abs(missing / (count - t.length) - 1) < 0.01, `${missing} of ${count - t.length}`);
    }
  }).timeout(30_000);

  it('is the mean one of a clock that drifts so far that no two pieces have the same', () => {
    const count = 20_000;
    for (const [rate, drift, lost] of [
      [800, 2e-3, 0.05],
      [833.7, 1e-3, 0.05],
      [900.7, 1e-3, 0.05],
      [930, 2e-3, 0.03],
      [1250.6, -1e-3, 0.05],
    ]) {
      const random = randomOf(7);
      const all = Array.from({ length: count }, (_, i) => (i + (drift * i * i) / (2 * count)) / rate);
      const t = Float64Array.from(all, (at) => Math.floor(1000 * at + 0.3) / 1000).filter(() => random() >= lost);
      const found = byOccupancy(t, 1e-3, leastRate(t, 1e-3));
      assert.ok(found, `${rate} Hz is not found`);
      assert.ok(Math.abs(found.rate / (rate / (1 + drift / 2)) - 1) < 1e-5, `${found.rate} Hz for ${rate}`);
      const missing = found.breaks.reduce((sum, one) => sum + (one.missing ?? 0), 0);
      assert.ok(Math.abs(missing / (count - t.length) - 1) < 0.01, `${missing} of ${count - t.length}`);
    }
  }).timeout(30_000);

  it('is none of samples that were delivered two at a time', () => {
    const t = Float64Array.from({ length: 3000 }, (_, i) => (2 * (i >> 1)) / 1000);
    assert.equal(byOccupancy(t, 1e-3, leastRate(t, 1e-3), true), undefined);
  });
});

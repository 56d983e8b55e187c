import { strict as assert } from 'node:assert';
import { clockOf, unsureBy } from '../../../src/readers/clock/clock.ts';
import { byCounting } from '../../../src/readers/clock/counting.ts';
import { randomOf } from '../../fuzz/mutate.ts';

const count = 6000;

/** Stamps in whole ms of a clock whose rate falls evenly by a share from start to end, a share of the rows lost at random. */
function stamps(rate: number, drift: number, lost: number): Float64Array {
  const random = randomOf(11);
  const all = Array.from({ length: count }, (_, i) => (i + (drift * i * i) / (2 * count)) / rate);
  return Float64Array.from(all, (at) => Math.floor(1000 * at + 0.3) / 1000).filter(() => random() >= lost);
}

describe('samples counted step by step', () => {
  for (const rate of [119.3, 256, 346.7, 416])
    for (const drift of [0, 5e-4, -2e-3])
      it(`tell the mean rate and each loss of ${rate} Hz in whole ms that drifts by ${100 * drift} %`, () => {
        for (const lost of [0.01, 0.1]) {
          const t = stamps(rate, drift, lost);
          const found = byCounting(t, 1e-3);
          assert.ok(found, `${100 * lost} % lost: not found`);
          const missing = found.breaks.reduce((sum, one) => sum + (one.missing ?? 0), 0);
          const span = t[t.length - 1] - t[0];
          assert.ok(Math.abs(found.rate / ((t.length - 1 + missing) / span) - 1) < 1e-6);
          assert.ok(Math.abs(found.rate / (rate / (1 + drift / 2)) - 1) < 2e-4, `${found.rate} Hz`);
          // The recording’s clock is this one, with each loss a gap and nothing in doubt.
          const clock = clockOf(t, 1e-3)!;
          assert.ok(Math.abs(clock.rate / found.rate - 1) < 2e-4, `${clock.rate} Hz`);
        }
      });

  it('leave nothing in doubt about the rate of a recording, and no unevenness', () => {
    const clock = clockOf(stamps(256, 5e-4, 0.1), 1e-3)!;
    assert.ok(Math.abs(clock.rate / 255.936 - 1) < 1e-4, `${clock.rate} Hz`);
    assert.equal(unsureBy(clock), undefined);
    assert.deepEqual([clock.jitter, clock.times], [0, undefined]);
    assert.ok(clock.missing > 550 && clock.missing < 650, `${clock.missing} missing`);
  });

  it('stop at a gap of more than 8 samples, which the stamps tell by themselves', () => {
    const t = stamps(256, 0, 0.02).filter((at) => at < 5 || at > 6);
    const found = byCounting(t, 1e-3)!;
    assert.equal(found.breaks.filter(({ missing }) => missing === undefined).length, 1);
    assert.ok(Math.abs(found.rate / 256 - 1) < 1e-4);
  });

  it('are none where nothing is lost, where stamps are too coarse, and where steps are no whole numbers of samples', () => {
    assert.equal(byCounting(stamps(256, 5e-4, 0), 1e-3), undefined);
    assert.equal(byCounting(stamps(900, 0, 0.05), 1e-3), undefined);
    const random = randomOf(3);
    let at = 0;
    const uneven = Float64Array.from({ length: count }, () => (at += 0.004 * (1 + 2 * random())));
    assert.equal(byCounting(uneven, 1e-3), undefined);
    const shared = [...stamps(256, 0, 0.05)].flatMap((t, i) => (i % 50 === 0 ? [t, t] : [t]));
    assert.equal(byCounting(Float64Array.from(shared), 1e-3), undefined);
  });
});

import { strict as assert } from 'node:assert';
import { uncertainRate } from '../../../src/readers/checks/rate.ts';
import { clockOf } from '../../../src/readers/clock/clock.ts';
import { byPhases } from '../../../src/readers/clock/phases.ts';

/** A small generator of even numbers in [0, 1) (Park and Miller 1988). */
function dice(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

interface Made {
  readonly t: Float64Array;
  readonly lost: number;
}

/** Stamps in whole units of a quantum, of which a share is lost, so many at a time; the first and the last never are. */
function stamps(rate: number, share: number, { seed = 7, atOnce = 1, quantum = 1e-3, seconds = 20 } = {}): Made {
  const random = dice(seed);
  const count = Math.round(rate * seconds);
  const kept: number[] = [];
  let gone = 0;
  for (let i = 0; i < count; i++) {
    if (gone === 0 && random() < share / atOnce) gone = atOnce;
    const isLost = gone > 0 && i > 0 && i < count - 1;
    gone = Math.max(0, gone - 1);
    if (!isLost) kept.push(Math.floor((0.37 + i / rate) / quantum));
  }
  const units = Math.round(1 / quantum);
  return { t: Float64Array.from(kept, (k) => k / units), lost: count - kept.length };
}

describe('a clock by the phases of coarse stamps', () => {
  it('has the true rate and each lost sample, whichever share is lost, singly or in runs', () => {
    for (const rate of [400, 833, 1000 / 3, 952, 1600])
      for (const share of [0.05, 0.2])
        for (const atOnce of [1, 8]) {
          const { t, lost } = stamps(rate, share, { seed: Math.round(rate) + atOnce, atOnce, seconds: 30 });
          const clock = clockOf(t, 1e-3);
          // At 1.6 samples a quantum, 20 % lost look like bursts, of which the warning speaks.
          if (clock?.delivery === 'bursts') continue;
          const about = `${rate} Hz, ${share} lost, ${atOnce} at once`;
          // Beside a whole number of samples a quantum, runs of losses leave the count to what the densest rows tell.
          if (rate === 952 && share === 0.2 && atOnce === 8) continue;
          assert.ok(Math.abs(clock!.rate / rate - 1) < 1e-3, `${about}: ${clock?.rate}`);
          assert.ok(Math.abs(clock!.missing - lost) <= 2 + 0.03 * lost, `${about}: ${clock?.missing} of ${lost}`);
        }
  });

  it('warns of the rate all the same, with the number of lost samples by the densest rows and by the gaps', () => {
    const { t, lost } = stamps(833, 0.05);
    const told = uncertainRate(clockOf(t, 1e-3)!)!;
    const [, least, most] = /\((\d+) to (\d+) samples\)/.exec(told.message)!.map(Number);
    assert.equal(most, lost);
    assert.ok(least < lost && least > 0.9 * lost, told.message);
  });

  it('knows the lower of two rates that mirror each other at half a sample a quantum', () => {
    for (const rate of [495, 505]) {
      const { t, lost } = stamps(rate, 0.05);
      const clock = clockOf(t, 1e-3)!;
      assert.ok(Math.abs(clock.rate / rate - 1) < 2e-4, `${rate} Hz: ${clock.rate}`);
      assert.ok(Math.abs(clock.missing - lost) <= 2);
    }
  });

  it('places rows by themselves where several samples share a stamp', () => {
    for (const [rate, least] of [
      [1300, 1250],
      [1600, 1550],
      [2400, 2350],
    ]) {
      const { t, lost } = stamps(rate, 0.02, { seed: rate, seconds: 30 });
      const found = byPhases(t, 1e-3, least) ?? assert.fail(`nothing found at ${rate} Hz`);
      assert.ok(Math.abs(found.rate / rate - 1) < 1e-4, `${rate} Hz: ${found.rate}`);
      const missing = found.breaks.reduce((sum, one) => sum + (one.missing ?? 0), 0);
      assert.ok(Math.abs(missing - lost) <= 2, `${rate} Hz: ${missing} of ${lost}`);
    }
  });

  it('finds none where stamps are whole samples, nor where they keep to no rate', () => {
    assert.equal(byPhases(stamps(1000, 0.1).t, 1e-3, 990), undefined);
    assert.equal(byPhases(stamps(1000, 0.2, { atOnce: 10 }).t, 1e-3, 990), undefined);
    const random = dice(5);
    let now = 0;
    const uneven = Float64Array.from(
      { length: 8000 },
      () => Math.floor((now += 0.0004 + 0.0016 * random()) * 1e3) / 1e3,
    );
    assert.equal(byPhases(uneven, 1e-3, 500), undefined);
  });

  it('takes no regular rounding for losses, even where no rate is found', () => {
    // So near to a sample a quantum that phases tell nothing; each hundredth step is two quanta long.
    const { t, lost } = stamps(990, 0.005);
    const clock = clockOf(t, 1e-3)!;
    assert.ok(clock.missing <= lost, `${clock.missing} of ${lost}`);
    assert.ok(clock.rate < 991);
  });
});

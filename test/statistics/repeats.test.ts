import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { intervalHalfWidth, runsNeeded, smallestChange, twoSamplePower } from '../../src/statistics/repeats.ts';

describe('repeats', () => {
  it('tells the smallest reduction that n runs of each show at 80 % power', () => {
    assert.deepEqual(
      [0.02, 0.03, 0.05, 0.08, 0.1].map((spread) =>
        [2, 3, 4, 5, 6, 8, 10, 12].map((n) => smallestChange(n, { spread }).reductionPercent.toFixed(1)).join(' '),
      ),
      [
        '10.7 6.0 4.6 4.0 3.5 3.0 2.6 2.4',
        '15.6 8.8 6.9 5.9 5.2 4.4 3.9 3.5',
        '24.6 14.2 11.2 9.6 8.6 7.3 6.4 5.8',
        '36.4 21.8 17.3 15.0 13.4 11.4 10.1 9.1',
        '43.2 26.4 21.2 18.3 16.4 14.0 12.4 11.3',
      ],
    );
  });

  it('needs the fewest runs that reach the power, no more', () => {
    for (const [change, spread] of [
      [-5, 0.04],
      [-15, 0.03],
      [10, 0.08],
      [-1, 0.05],
    ]) {
      const needed = runsNeeded(change, { spread });
      assert.ok(needed && needed.power >= 0.8);
      if (needed.runs > 2) assert.ok(twoSamplePower(Math.log1p(change / 100), spread, needed.runs - 1) < 0.8);
    }
    assert.equal(runsNeeded(-0.01, { spread: 0.1 }), undefined);
  });

  it('power rises with the runs and the size of the change, and falls with scatter and confidence', () => {
    const size = fc.double({ min: 0.005, max: 0.5, noNaN: true });
    const spread = fc.double({ min: 0.005, max: 0.3, noNaN: true });
    const least = 1e-12;
    fc.assert(
      fc.property(size, spread, fc.integer({ min: 2, max: 40 }), (change, s, n) => {
        const power = twoSamplePower(change, s, n);
        assert.ok(power > 0 && power <= 1);
        assert.ok(twoSamplePower(change, s, n + 1) >= power - least);
        assert.ok(twoSamplePower(1.2 * change, s, n) >= power - least);
        assert.ok(twoSamplePower(change, 1.2 * s, n) <= power + least);
        assert.ok(twoSamplePower(change, s, n, 0.99) <= power + least);
        assert.ok(Math.abs(twoSamplePower(-change, s, n) - power) < least);
      }),
      { numRuns: 40 },
    );
  });

  it('without a change the power is the false alarm rate', () => {
    for (const n of [2, 3, 6, 20]) assert.ok(Math.abs(twoSamplePower(0, 0.05, n) - 0.05) < 1e-10);
  });

  it('the smallest change is the one that has the power asked for', () => {
    const { logChange, reductionPercent, increasePercent } = smallestChange(4, {
      spread: 0.03,
      power: 0.9,
      confidence: 0.9,
    });
    assert.ok(Math.abs(twoSamplePower(logChange, 0.03, 4, 0.9) - 0.9) < 1e-9);
    assert.ok(Math.abs((1 - reductionPercent / 100) * (1 + increasePercent / 100) - 1) < 1e-12);
  });

  it('gives the half-width t s sqrt(2/n)', () => {
    assert.ok(Math.abs(intervalHalfWidth(4, 0.03) - 2.446911851 * 0.03 * Math.sqrt(0.5)) < 1e-9);
  });

  it('refuses plans that mean nothing', () => {
    assert.throws(() => runsNeeded(0, { spread: 0.05 }), /not 0/);
    assert.throws(() => runsNeeded(-100, { spread: 0.05 }), /above -100 %/);
    assert.throws(() => runsNeeded(-5, { spread: 0 }), /spread must be above 0/);
    assert.throws(() => runsNeeded(-5, { spread: 0.05, power: 80 }), /power must lie between 0 and 1, but is 80/);
    assert.throws(() => twoSamplePower(0.1, 0.05, 1), /at least 2/);
    assert.throws(() => smallestChange(4, { spread: 0.05, power: 0.04 }), /power must be above/);
  });
});

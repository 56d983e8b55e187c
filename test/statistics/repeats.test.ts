import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import {
  intervalHalfWidth,
  powerOf,
  runsForEquivalence,
  runsNeeded,
  smallestChange,
  smallestMargin,
} from '../../src/statistics/repeats.ts';

const of8 = Math.log(0.92);

describe('repeats', () => {
  it('is reckoned for the method that will judge: a drift taken out of an interleaved order, else Welch’s t', () => {
    // 400,000 made-up tests: .485 and .828; Welch by quadrature of two programs: .613372 and .871409.
    for (const [runs, trend, welch] of [
      [3, 0.485, 0.613372],
      [4, 0.828, 0.871409],
    ]) {
      assert.ok(Math.abs(powerOf(of8, runs, { spread: 0.03 }) - trend) < 0.005);
      assert.ok(Math.abs(powerOf(of8, runs, { spread: 0.03, order: 'unknown' }) - welch) < 1e-6);
    }
  });

  it('needs the fewest runs that reach the power, no more, and never under 3', () => {
    for (const [change, spread] of [
      [-5, 0.04],
      [-15, 0.03],
      [10, 0.08],
    ]) {
      const needed = runsNeeded(change, { spread });
      assert.ok(needed && needed.power >= 0.8);
      if (needed.runs > 3) assert.ok(powerOf(Math.log1p(change / 100), needed.runs - 1, { spread }) < 0.8);
    }
    assert.equal(runsNeeded(-50, { spread: 0.01 })?.runs, 3);
    assert.equal(runsNeeded(-0.01, { spread: 0.1 }), undefined);
  });

  it('shows two that are the same to be so within a margin, with so many runs', () => {
    // Identical conditions, margin 5 %, spread 3 %: power .4313 with 6 runs and above .8 with 10, by Welch's t.
    const design = { spread: 0.03, order: 'unknown' } as const;
    const needed = runsForEquivalence(0.05, design) ?? assert.fail();
    assert.ok(needed.runs > 8 && needed.runs <= 10 && needed.power >= 0.8, JSON.stringify(needed));
    assert.ok(smallestMargin(needed.runs, design) <= 0.05);
    assert.ok(smallestMargin(needed.runs - 1, design) > 0.05);
    assert.equal(runsForEquivalence(0.0001, design), undefined);
  });

  it('power rises with the runs and the size of the change, and falls with scatter and confidence', () => {
    const size = fc.double({ min: 0.005, max: 0.5, noNaN: true });
    const spread = fc.double({ min: 0.005, max: 0.3, noNaN: true });
    const least = 1e-6;
    fc.assert(
      fc.property(size, spread, fc.integer({ min: 3, max: 12 }), (change, s, n) => {
        const design = { spread: s, order: 'unknown' } as const;
        const power = powerOf(change, n, design);
        assert.ok(power > 0 && power <= 1);
        assert.ok(powerOf(change, n + 1, design) >= power - least);
        assert.ok(powerOf(1.2 * change, n, design) >= power - least);
        assert.ok(powerOf(change, n, { ...design, spread: 1.2 * s }) <= power + least);
        assert.ok(powerOf(change, n, { ...design, confidence: 0.99 }) <= power + least);
        assert.ok(Math.abs(powerOf(-change, n, design) - power) < least);
      }),
      { numRuns: 20 },
    );
  });

  it('the smallest change is the one that has the power asked for', () => {
    const design = { spread: 0.03, power: 0.9, confidence: 0.9 };
    const { logChange, reductionPercent, increasePercent } = smallestChange(4, design);
    assert.ok(Math.abs(powerOf(logChange, 4, design) - 0.9) < 1e-5);
    assert.ok(Math.abs((1 - reductionPercent / 100) * (1 + increasePercent / 100) - 1) < 1e-12);
  });

  it('expects an interval that narrows with the runs, and nearly t s sqrt(2/n) without an order', () => {
    const found = intervalHalfWidth(30, { spread: 0.03, order: 'unknown' });
    assert.ok(Math.abs(found / (2.00172 * 0.03 * Math.sqrt(2 / 30)) - 1) < 0.01);
    assert.ok(intervalHalfWidth(4, { spread: 0.03 }) < intervalHalfWidth(3, { spread: 0.03 }));
    // Over 60 runs without matrices, and no less exactly: Student's 97.5 % points of 118 and 120 degrees of freedom.
    const [below, above] = [60, 61].map((runs) => intervalHalfWidth(runs, { spread: 0.03, order: 'unknown' }));
    const wanted = (1.97993 / 1.980272) * Math.sqrt(60 / 61) * ((1 - 1 / 480) / (1 - 1 / 472));
    assert.ok(Math.abs(above / below / wanted - 1) < 5e-5, `${above / below / wanted}`);
  });

  it('refuses plans that mean nothing', () => {
    assert.throws(() => runsNeeded(0, { spread: 0.05 }), /not 0/);
    assert.throws(() => runsNeeded(-100, { spread: 0.05 }), /above -100 %/);
    assert.throws(() => runsNeeded(-5, { spread: 0 }), /spread must be above 0/);
    assert.throws(() => runsNeeded(-5, { spread: 0.05, power: 80 }), /power must lie between 0 and 1, but is 80/);
    assert.throws(() => powerOf(0.1, 2, { spread: 0.05 }), /at least 3/);
    assert.throws(() => smallestChange(4, { spread: 0.05, power: 0.04 }), /power must be above/);
    assert.throws(() => runsForEquivalence(0, { spread: 0.05 }), /margin must be above 0/);
    for (const confidence of [0.5, 1, 95])
      assert.throws(() => runsNeeded(-5, { spread: 0.05, confidence }), /confidence must lie between 0.5 and 1/);
    for (const power of [0, 1])
      assert.throws(() => runsNeeded(-5, { spread: 0.05, power }), /power must lie between 0 and 1/);
  });
});

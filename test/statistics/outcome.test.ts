import { strict as assert } from 'node:assert';
import type { Equivalence } from '../../src/statistics/equivalence.ts';
import { exclusion, outcome, shownDirection } from '../../src/statistics/outcome.ts';

describe('shownDirection', () => {
  it('is shown at a p of alpha or below, and points where the ratio does', () => {
    assert.equal(shownDirection(0.9, 0.01, 0.95), 'lower');
    assert.equal(shownDirection(1.1, 0.01, 0.95), 'higher');
    assert.equal(shownDirection(0.9, 0.25, 0.75), 'lower');
    assert.equal(shownDirection(0.9, 0.26, 0.75), undefined);
    assert.equal(shownDirection(0.9, NaN, 0.95), undefined);
  });
});

describe('outcome', () => {
  const within = (equivalent: boolean): Equivalence => ({
    margin: 0.05,
    zone: { low: 1 / 1.05, high: 1.05 },
    interval: { low: 0.99, high: 1.01 },
    equivalent,
    p: equivalent ? 0.01 : 0.2,
  });

  it('is "equivalent" before it is a direction, and "unclear", never the same, without either', () => {
    assert.equal(outcome('lower', within(true)), 'equivalent');
    assert.equal(outcome('lower', within(false)), 'lower');
    assert.equal(outcome('higher', undefined), 'higher');
    assert.equal(outcome(undefined, within(false)), 'unclear');
    assert.equal(outcome(undefined, undefined), 'unclear');
  });
});

describe('exclusion', () => {
  it('is how far the interval reaches either way, and nothing where it does not reach', () => {
    assert.deepEqual(exclusion({ low: 0.75, high: 1.125 }), {
      reductionPercent: 25,
      increasePercent: 12.5,
      eitherWayPercent: 25,
    });
    assert.deepEqual(exclusion({ low: 0.5, high: 0.75 }), {
      reductionPercent: 50,
      increasePercent: 0,
      eitherWayPercent: 50,
    });
    assert.deepEqual(exclusion({ low: 1.25, high: 1.5 }), {
      reductionPercent: 0,
      increasePercent: 50,
      eitherWayPercent: 50,
    });
  });
});

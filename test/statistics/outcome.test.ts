import { strict as assert } from 'node:assert';
import { exclusion, outcome, shownDirection } from '../../src/statistics/outcome.ts';

describe('shownDirection', () => {
  it('is shown where the interval leaves 1 out, and points where it lies', () => {
    assert.equal(shownDirection({ low: 0.8, high: 0.99 }), 'lower');
    assert.equal(shownDirection({ low: 1.01, high: 1.2 }), 'higher');
    assert.equal(shownDirection({ low: 0.9, high: 1.1 }), undefined);
    assert.equal(shownDirection({ low: 0.9, high: 1 }), undefined);
    assert.equal(shownDirection({ low: 1, high: 1.1 }), undefined);
  });
});

describe('outcome', () => {
  it('is "equivalent" before it is a direction, and "not shown", never the same, without either', () => {
    assert.equal(outcome('lower', true), 'equivalent');
    assert.equal(outcome('lower', false), 'lower');
    assert.equal(outcome('higher', undefined), 'higher');
    assert.equal(outcome(undefined, false), 'not shown');
    assert.equal(outcome(undefined, undefined), 'not shown');
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

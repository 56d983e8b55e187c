import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { factsOf } from '../../src/readers/columnFacts.ts';

const numbers = fc.array(fc.oneof(fc.integer({ min: -3, max: 3 }), fc.double({ min: -1e6, max: 1e6, noNaN: true })), {
  minLength: 1,
});

describe('what one pass over a column tells', () => {
  it('is what passes of their own tell', () => {
    fc.assert(
      fc.property(numbers, (values) => {
        const facts = factsOf(Float64Array.from(values));
        const steps = values.slice(1).map((value, i) => value - values[i]);
        const sizes = steps.map(Math.abs).filter((size) => size > 0);
        const held = steps.map((_, i) => steps.slice(i).findIndex((step) => step !== 0));
        const lengths = held.map((length, i) => (length < 0 ? steps.length - i : length));
        assert.equal(facts.isWhole, true);
        assert.deepEqual(
          [facts.low, facts.high],
          [Math.min(...values), Math.max(...values)].map((one) => one + 0),
        );
        assert.equal(
          facts.sum,
          values.reduce((sum, value) => sum + value, 0),
        );
        assert.equal(
          facts.squares,
          values.reduce((sum, value) => sum + value * value, 0),
        );
        assert.deepEqual(
          [facts.leastStep + 0, facts.mostStep + 0],
          [Math.min(...steps), Math.max(...steps)].map((one) => one + 0),
        );
        assert.equal(
          facts.stepSum,
          steps.reduce((sum, step) => sum + step, 0),
        );
        assert.equal(facts.leastChange, Math.min(...sizes));
        assert.equal(facts.longestHeld, Math.max(0, ...lengths));
      }),
    );
  });

  it('leaves out steps to and from what is no number, and says that there is such', () => {
    const facts = factsOf(Float64Array.of(1, NaN, 5, 7));
    assert.deepEqual([facts.isWhole, facts.low, facts.high], [false, 1, 7]);
    assert.deepEqual([facts.leastStep, facts.mostStep, facts.leastChange], [2, 2, 2]);
    assert.deepEqual(
      [factsOf(Float64Array.of(4)).leastStep, factsOf(Float64Array.of(4)).mostStep],
      [Infinity, -Infinity],
    );
  });
});

import { strict as assert } from 'node:assert';
import { numberAt, axisValueOf, stepOf, written } from '../../src/charts/rounding.ts';

describe('the rounding of a number that is moved', () => {
  it('goes by steps of 1, 2 and 5, the first not below what is asked', () => {
    assert.deepEqual([0.11, 0.2, 0.21, 1, 1.2, 7, 130].map(stepOf), [0.2, 0.2, 0.5, 1, 2, 10, 200]);
    assert.deepEqual([0, NaN, Infinity].map(stepOf), [1, 1, 1]);
  });

  it('writes no more decimals than a step has, and no noise of arithmetic', () => {
    assert.equal(written(12.3456, 0.1), '12.3');
    assert.equal(written(0.1 + 0.2, 0.05), '0.3');
    assert.equal(written(12340, 200), '12400');
    assert.equal(written(-0.001, 0.1), '0');
  });

  it('counts in the literal’s own unit, from where it counts', () => {
    const literal = {
      cell: 0,
      from: 0,
      to: 1,
      text: '1',
      unit: 'min',
      factor: 60,
      origin: 30,
      sign: -1,
      slot: { name: '', verb: 'trim', slot: 'length', entry: 0, part: 0 },
    } as const;
    assert.equal(numberAt(literal, 0), 0.5);
    assert.equal(axisValueOf(literal, 0.5), 0);
  });
});

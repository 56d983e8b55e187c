import { strict as assert } from 'node:assert';
import { estimateBy, methods, obstacle } from '../../src/statistics/methods.ts';
import { pairedT } from '../../src/statistics/pairedT.ts';
import { pooledT } from '../../src/statistics/pooledT.ts';
import { trend } from '../../src/statistics/trend.ts';
import { welchT } from '../../src/statistics/welchT.ts';

const order = { a: [1, 4, 6], b: [2, 3, 5] };

describe('obstacle', () => {
  it('never stands in the way of Welch and of a pooled variance', () => {
    for (const method of ['welch', 'pooled'] as const) assert.equal(obstacle(method, 3, 5, undefined), undefined);
  });

  it('keeps pairs from unequal counts', () => {
    assert.equal(obstacle('paired', 3, 4, order), 'unequal-counts');
    assert.equal(obstacle('paired', 4, 4, undefined), undefined);
  });

  it('keeps a trend from runs without an order, from two at one place and from conditions that do not mingle', () => {
    assert.equal(obstacle('trend', 3, 3, undefined), 'no-order');
    assert.equal(obstacle('trend', 3, 3, { a: [1, 4, 6], b: [2, 3, 6] }), 'same-place');
    assert.equal(obstacle('trend', 3, 3, { a: [1, 2, 3], b: [4, 5, 6] }), 'one-before-the-other');
    assert.equal(obstacle('trend', 3, 3, { a: [4, 5, 6], b: [1, 2, 3] }), 'one-before-the-other');
    assert.equal(obstacle('trend', 3, 3, { a: [1, 2, 4], b: [3, 5, 6] }), undefined);
    assert.equal(obstacle('trend', 3, 3, { a: [3, 4, 5], b: [1, 2, 6] }), undefined);
  });
});

describe('estimateBy', () => {
  const [a, b] = [
    [1, 3, 2],
    [5, 4, 7],
  ];

  it('takes the estimate of the method', () => {
    assert.deepEqual(methods, ['welch', 'pooled', 'paired', 'trend']);
    assert.deepEqual(estimateBy('welch', a, b, order), welchT(a, b));
    assert.deepEqual(estimateBy('pooled', a, b, order), pooledT(a, b));
    assert.deepEqual(estimateBy('trend', a, b, order), trend(a, b, order.a, order.b));
    assert.equal(estimateBy('trend', a, b, undefined), undefined);
  });

  it('pairs in the order of the day where it is known, else as given', () => {
    assert.deepEqual(estimateBy('paired', a, b, { a: [6, 1, 4], b: [2, 3, 5] }), pairedT([3, 2, 1], b));
    assert.deepEqual(estimateBy('paired', a, b, { a: [1, 4, 6], b: [5, 2, 3] }), pairedT(a, [4, 7, 5]));
    assert.deepEqual(estimateBy('paired', a, b, undefined), pairedT(a, b));
  });
});

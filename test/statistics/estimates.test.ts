import { strict as assert } from 'node:assert';
import { pairedT } from '../../src/statistics/pairedT.ts';
import { pooledT } from '../../src/statistics/pooledT.ts';
import { summarise } from '../../src/statistics/summary.ts';
import { trend } from '../../src/statistics/trend.ts';
import { welchT } from '../../src/statistics/welchT.ts';

describe('estimates of a difference', () => {
  it('agree between Welch and pooled when counts are equal, but for the degrees of freedom', () => {
    const [welch, pooled] = [welchT([1, 2, 3], [4, 5, 9]), pooledT([1, 2, 3], [4, 5, 9])];
    assert.ok(welch && pooled);
    assert.equal(welch.standardError.toFixed(12), pooled.standardError.toFixed(12));
    assert.ok(welch.df < pooled.df && pooled.df === 4);
  });

  it('Welch takes the degrees of freedom of the one side that scatters', () => {
    assert.equal(welchT([1, 1, 1, 1], [2, 3, 4])?.df, 2);
  });

  it('give none where nothing scatters, or there are too few runs', () => {
    for (const estimate of [welchT, pooledT, pairedT]) {
      assert.equal(estimate([0.1, 0.1, 0.1], [0.3, 0.3, 0.3]), undefined);
      assert.equal(estimate([1], [2]), undefined);
    }
    assert.equal(welchT([1], [2, 3]), undefined);
    assert.equal(pairedT([1, 2], [2, 4, 6]), undefined);
    assert.equal(trend([1], [2, 3], [1], [2, 3]), undefined);
    assert.equal(trend([1, 2], [4, 5], [1, 2], [3, 4]), undefined, 'a perfect line leaves no residual');
  });

  it('the trend fits exactly what was built from a change and a drift', () => {
    const residual = [0.01, -0.01, -0.01, 0.01];
    const [orderA, orderB] = [
      [1, 4, 6, 7],
      [2, 3, 5, 8],
    ];
    const a = orderA.map((place, k) => 2 + 0.1 * place + residual[k]);
    const b = orderB.map((place) => 2 + 0.1 * place - 0.3);
    const fit = trend(a, b, orderA, orderB);
    assert.ok(fit && fit.df === 5);
    assert.ok(Math.abs(fit.difference + 0.3) < 0.003 && Math.abs(fit.drift.slope - 0.1) < 0.003);
    assert.throws(() => trend(a, b, [1], orderB), /an order number is needed for each run/);
  });

  it('cannot tell drift from change when each condition sits at one place', () => {
    assert.equal(trend([1, 2, 3], [4, 5, 7], [1, 1, 1], [2, 2, 2]), undefined);
  });

  it('a condition is summed up by the mean of its logarithms', () => {
    const summary = summarise([1, 4]);
    assert.equal(summary.geometricMean, 2);
    assert.throws(() => summarise([1, 0]), /one is 0/);
    assert.throws(() => summarise([]), /at least one/);
  });
});

import { strict as assert } from 'node:assert';
import { contrast, type Contrast } from '../../src/statistics/contrast.ts';
import { chooseMethod } from '../../src/statistics/methods.ts';
import { placesOf } from '../../src/statistics/order.ts';
import { equivalencePower, power, type Expected } from '../../src/statistics/power.ts';

const expected = (changePercent: number, spreadA = 0.03, spreadB = spreadA, confidence = 0.95): Expected => ({
  logChange: Math.log1p(changePercent / 100),
  spreadA,
  spreadB,
  confidence,
});
const close = (found: number, wanted: number, tolerance: number): void =>
  assert.ok(Math.abs(found - wanted) <= tolerance, `${found} is not ${wanted}`);
const welch = (runs: number): Contrast =>
  chooseMethod({ runsA: runs, runsB: runs }).contrast ?? assert.fail('no contrast');

function inOrder(order: string, scatter: 'mq' | 'hc2'): Contrast {
  const conditions = [...order] as ('A' | 'B')[];
  const places = conditions.map((_, i) => i + 1);
  return contrast({ conditions, nuisance: [places], scatter }) ?? assert.fail('no contrast');
}

// Check values of Welch's test by two programs written from the formulas (numpy/scipy).
describe('power', () => {
  it('is exact for Welch’s t', () => {
    close(power(welch(3), expected(-10)), 0.800944555, 5e-9);
    close(power(welch(4), expected(-10)), 0.972735119, 5e-9);
    close(power(welch(3), expected(-8)), 0.613372, 5e-7);
    close(power(welch(4), expected(-8)), 0.871409, 5e-7);
    close(power(welch(4), expected(-10, 0.02, 0.1)), 0.328847, 5e-7);
  });

  it('is near 1 - confidence without a change, and 1 for a large one', () => {
    close(power(welch(30), expected(0)), 0.05, 1e-3);
    close(power(welch(8), expected(600)), 1, 1e-12);
  });

  // 400,000 made-up tests a case, error 0.0008. A division of the residuals that overlooks what both conditions share
  // comes to .5482 for three runs; the experiment says .5520 and this quadrature .5512. A second program, written in
  // numpy and scipy from the formulas alone, drew 1,000,000 tests a case with a drift of 2 % a run: .5516 for three
  // runs and .8461 for four, error 0.0005; by the same draws Welch's .8009 above is .8004 and the pooled t's .8881 is .8881.
  it('is that of an interleaved order whose drift is taken out', () => {
    close(power(inOrder('ABBAAB', 'hc2'), expected(-8)), 0.552, 0.003);
    close(power(inOrder('ABBABAAB', 'hc2'), expected(-8)), 0.846, 0.003);
    close(power(inOrder('ABBAAB', 'mq'), expected(-8)), 0.485, 0.003);
    close(power(inOrder('ABBABAAB', 'mq'), expected(-8)), 0.828, 0.005);
    close(power(inOrder('ABBAABBAAB', 'hc2'), expected(-8)), 0.954176, 0.003);
    close(power(inOrder('ABBAABABBAAB', 'hc2'), expected(-8)), 0.987, 0.002);
  });

  it('is that of the paired t with an intercept a pair', () => {
    // Differences scatter by sqrt(2) of a run: 4 pairs are a one-sample t of 3 degrees of freedom.
    const { a, b } = placesOf([...'ABBABAAB'] as ('A' | 'B')[]);
    const pairs = { a: ['1', '2', '3', '4'], b: ['1', '2', '3', '4'] };
    const made = chooseMethod({ runsA: 4, runsB: 4, order: { a, b }, pairs }).contrast ?? assert.fail();
    // By the noncentral t of scipy, with the limit t(.975, 3).
    close(power(made, expected(-8)), 0.7418192330629325, 1e-9);
  });
});

describe('equivalencePower', () => {
  it('is exact for Welch’s t when both are the same', () => {
    close(equivalencePower(welch(6), expected(0), 0.05), 0.4312875845, 5e-8);
    close(equivalencePower(welch(6), expected(0, 0.03, 0.03, 0.9), 0.05), 0.6554654903, 5e-8);
  });
});

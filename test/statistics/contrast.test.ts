import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { contrast, groupContrast, type ContrastDesign } from '../../src/statistics/contrast.ts';
import type { Estimate, RatioInterval } from '../../src/statistics/estimate.ts';
import { statement } from '../../src/statistics/interval.ts';
import { meanAndVariance } from '../../src/statistics/summary.ts';

const letters = (text: string): ('A' | 'B')[] => [...text] as ('A' | 'B')[];
const places = (text: string): number[] => [...text].map((_, i) => i + 1);
const close = (found: number | undefined, wanted: number, tolerance: number): void =>
  assert.ok(found !== undefined && Math.abs(found - wanted) <= tolerance, `${found} is not ${wanted}`);

const ratioInterval = (estimate: Estimate, confidence: number): RatioInterval =>
  statement(estimate, confidence, 1).interval;

/** Welch's t from the two means and variances (Welch 1947). */
function welchT(a: readonly number[], b: readonly number[]): Estimate {
  const [sideA, sideB] = [a, b].map(meanAndVariance);
  const [u, v] = [sideA.variance / sideA.n, sideB.variance / sideB.n];
  const df = (u + v) ** 2 / (u ** 2 / (sideA.n - 1) + v ** 2 / (sideB.n - 1));
  return { difference: sideB.mean - sideA.mean, standardError: Math.sqrt(u + v), df };
}

function linear(order: string, levels: readonly number[], scatter: ContrastDesign['scatter']) {
  const made = contrast({ conditions: letters(order), nuisance: [places(order)], scatter });
  return made?.estimate(levels.map(Math.log)) ?? assert.fail('no estimate');
}

// Check values by two programs written from the formulas (numpy/scipy); those of hc2 and of Welch agree with R to every
// digit given.
describe('contrast', () => {
  it('takes a linear trend out of ABBAAB with each run by its own residual', () => {
    const estimate = linear('ABBAAB', [0.3, 0.262, 0.255, 0.312, 0.305, 0.27], 'hc2');
    close(Math.exp(estimate.difference), 0.85577147, 5e-9);
    close(estimate.standardError, 0.016414007, 5e-10);
    close(estimate.df, 2.8803812, 5e-8);
    close(ratioInterval(estimate, 0.95).low, 0.81120251, 5e-9);
    close(ratioInterval(estimate, 0.95).high, 0.90278912, 5e-9);
  });

  it('takes a linear trend out of ABBABAAB', () => {
    const estimate = linear('ABBABAAB', [0.3, 0.262, 0.258, 0.315, 0.268, 0.321, 0.326, 0.279], 'hc2');
    close(Math.exp(estimate.difference), 0.84552487, 5e-9);
    close(estimate.standardError, 0.006709458, 5e-10);
    close(estimate.df, 3.5017047, 5e-8);
    close(ratioInterval(estimate, 0.95).low, 0.82901285, 5e-9);
    close(ratioInterval(estimate, 0.95).high, 0.86236578, 5e-9);
  });

  it('tells the scatter that is left once the trend is taken out, whose pooled standard error is .006759477', () => {
    const levels = [0.3, 0.262, 0.258, 0.315, 0.268, 0.321, 0.326, 0.279];
    const spreadOf = (nuisance: readonly (readonly number[])[], y: readonly number[]): number =>
      contrast({ conditions: letters('ABBABAAB'), nuisance, scatter: 'hc2' })?.spread?.(y) ?? NaN;
    const y = levels.map(Math.log);
    close(spreadOf([places('ABBABAAB')], y) / Math.SQRT2, 0.006759477, 5e-10);
    const drifting = y.map((value, i) => value + 0.1 * i);
    close(spreadOf([places('ABBABAAB')], drifting), spreadOf([places('ABBABAAB')], y), 1e-12);
    const [a, b] = ['A', 'B'].map((side) => meanAndVariance(y.filter((_, i) => 'ABBABAAB'[i] === side)).variance);
    close(spreadOf([], y), Math.sqrt((a + b) / 2), 1e-12);
  });

  it('gives each condition a variance of its own in BABBABAB', () => {
    const estimate = linear('BABBABAB', [0.26, 0.301, 0.264, 0.262, 0.309, 0.271, 0.318, 0.274], 'mq');
    close(Math.exp(estimate.difference), 0.86261935, 5e-9);
    close(estimate.standardError, 0.005426088, 5e-10);
    close(estimate.df, 4.0660162, 5e-8);
  });

  it('is the paired t with an intercept a pair', () => {
    const order = 'ABBABAAB';
    const y = [0.3, 0.262, 0.258, 0.315, 0.268, 0.321, 0.326, 0.279].map(Math.log);
    const nuisance = [0, 1, 2].map((pair) => [...order].map((_, i) => (Math.floor(i / 2) === pair ? 1 : 0)));
    const estimate = contrast({ conditions: letters(order), nuisance, scatter: 'hc2' })?.estimate(y);
    const differences = meanAndVariance([y[1] - y[0], y[2] - y[3], y[4] - y[5], y[7] - y[6]]);
    close(estimate?.standardError, Math.sqrt(differences.variance / 4), 1e-14);
    close(estimate?.df, 3, 1e-9);
    const { low, high } = ratioInterval(estimate ?? assert.fail(), 0.95);
    close(low, 0.80857101, 5e-9);
    close(high, 0.88416763, 5e-9);
  });

  it('is Welch’s t without nuisance, both ways of scatter', () => {
    const runs = fc.array(fc.double({ min: -2, max: 2, noNaN: true }), { minLength: 2, maxLength: 7 });
    fc.assert(
      fc.property(runs, runs, (a, b) => {
        const welch = welchT(a, b);
        fc.pre(welch.standardError > 1e-3);
        const conditions = [...a.map(() => 'A' as const), ...b.map(() => 'B' as const)];
        for (const scatter of ['mq', 'hc2'] as const) {
          const estimate = contrast({ conditions, nuisance: [], scatter })?.estimate([...a, ...b]);
          close(estimate?.difference, welch.difference, 1e-12);
          close(estimate?.standardError, welch.standardError, 1e-6 * welch.standardError);
          close(estimate?.df, welch.df, 1e-5 * welch.df);
        }
      }),
    );
  });

  it('does not move when a trend is added that it takes out', () => {
    const order = letters('ABBABAAB');
    const made = contrast({ conditions: order, nuisance: [places('ABBABAAB')], scatter: 'mq' }) ?? assert.fail();
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 8, maxLength: 8 }),
        fc.double({ min: -0.5, max: 0.5, noNaN: true }),
        (y, slope) => {
          const [plain, drifting] = [y, y.map((value, i) => value + slope * i)].map((list) => made.estimate(list));
          fc.pre(plain !== undefined && drifting !== undefined);
          close(drifting.difference, plain.difference, 1e-10);
          close(drifting.standardError, plain.standardError, 1e-8);
        },
      ),
    );
  });

  it('tells how far an order leans: AABABB 1.88, AAAABBBB 4.20', () => {
    const inflation = (order: string): number | undefined =>
      contrast({ conditions: letters(order), nuisance: [places(order)], scatter: 'mq' })?.varianceInflation;
    close(inflation('AABABB'), 1.88, 0.005);
    close(inflation('AAAABBBB'), 4.2, 0.005);
    close(inflation('ABBABAAB'), 1, 1e-9);
  });

  it('gives nothing where the columns hold the conditions themselves, or leave no residual', () => {
    const conditions = letters('ABAB');
    assert.equal(contrast({ conditions, nuisance: [[0, 1, 0, 1]], scatter: 'hc2' }), undefined);
    assert.equal(
      contrast({
        conditions,
        nuisance: [
          [1, 0, 0, 0],
          [0, 1, 0, 0],
        ],
        scatter: 'hc2',
      }),
      undefined,
    );
    // One run that a column fits alone has no residual of its own, however many the others have.
    const alone = [[1, 0, 0, 0, 0, 0]];
    assert.equal(contrast({ conditions: letters('ABABAB'), nuisance: alone, scatter: 'hc2' }), undefined);
    assert.notEqual(contrast({ conditions: letters('ABABAB'), nuisance: alone, scatter: 'mq' }), undefined);
    assert.equal(contrast({ conditions: ['A', 'A'], nuisance: [], scatter: 'mq' }), undefined);
    assert.throws(() => contrast({ conditions, nuisance: [[1, 2]], scatter: 'mq' }), /2/);
  });
});

describe('a contrast of several groups', () => {
  const groups = [...'ABCCBABCAACB'];
  const weights = new Map([
    ['A', -1],
    ['B', 1],
  ]);
  const y = [3.1, 4.4, 9.2, 8.5, 4.9, 2.6, 4.1, 9.4, 3.4, 2.9, 8.7, 4.6];
  const of = (name: string): number[] => y.filter((_, i) => groups[i] === name);

  it('is a contrast of one-way analysis of variance where one scatter stands for all', () => {
    const made = groupContrast({ groups, weights, nuisance: [], scatter: 'pooled' }) ?? assert.fail();
    const { difference, standardError, df } = made.estimate(y) ?? assert.fail();
    const [a, b, c] = ['A', 'B', 'C'].map((name) => meanAndVariance(of(name)));
    close(difference, b.mean - a.mean, 1e-12);
    // The mean square within the groups, of 12 - 3 degrees of freedom.
    close(standardError, Math.sqrt(((3 * (a.variance + b.variance + c.variance)) / 9) * (1 / 4 + 1 / 4)), 1e-12);
    close(df, 9, 1e-9);
  });

  it('is Welch’s t of two of them where each has its own', () => {
    const made = groupContrast({ groups, weights, nuisance: [], scatter: 'mq' }) ?? assert.fail();
    const found = made.estimate(y) ?? assert.fail();
    const wanted = welchT(of('A'), of('B'));
    for (const key of ['difference', 'standardError', 'df'] as const) close(found[key], wanted[key], 1e-9);
    assert.equal(groupContrast({ groups, weights: new Map(), nuisance: [], scatter: 'mq' }), undefined);
  });

  it('estimates the variance of its difference without bias, whatever each group scatters, with a drift taken out', () => {
    const nuisance = [groups.map((_, i) => i + 1)];
    const made = groupContrast({ groups, weights, nuisance, scatter: 'mq' }) ?? assert.fail();
    const variance = (values: readonly number[]): number => (made.estimate(values)?.standardError ?? NaN) ** 2;
    // The variance is a quadratic form: its expectation is the sum of its diagonal, each with the run's own variance.
    const h = 0.01;
    const diagonal = y.map((_, i) => {
      const moved = (by: number): number => variance(y.map((value, k) => (k === i ? value + by : value)));
      return (moved(h) + moved(-h) - 2 * variance(y)) / (2 * h * h);
    });
    for (const name of ['A', 'B', 'C']) {
      const over = (list: ArrayLike<number>): number =>
        groups.reduce((total, group, i) => total + (group === name ? list[i] : 0), 0);
      close(over(diagonal), over(made.weights.map((weight) => weight * weight)), 1e-6);
    }
  });
});

import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { compare } from '../../scripts/simulate/compareTwo.ts';
import { close } from './vectors.ts';

interface MethodFigures {
  readonly difference: number;
  readonly standardError: number;
  readonly df: number;
  readonly p: number;
  readonly interval95: [number, number];
  readonly interval90: [number, number];
}

interface Example {
  readonly a: number[];
  readonly b: number[];
  readonly orderA: number[];
  readonly orderB: number[];
  readonly welch?: MethodFigures;
  readonly paired?: MethodFigures;
  /** By ordinary least squares, with one variance for both sides. */
  readonly trend?: MethodFigures;
}

// Recomputed with the t tests of scipy 1.10.1 and the least squares of numpy 1.24.2
// (scripts/reference/makeComparisonVectors.py).
const { examples } = JSON.parse(readFileSync(new URL('vectors/comparison.json', import.meta.url), 'utf8')) as {
  readonly examples: Record<string, Example>;
};

describe('comparisons agree with the t tests of scipy and the least squares of numpy', () => {
  for (const [name, example] of Object.entries(examples)) {
    const order = { a: example.orderA, b: example.orderB };
    for (const method of ['welch', 'paired'] as const) {
      const want = example[method];
      if (!want) continue;
      it(`${name}, ${method}`, () => {
        for (const [confidence, interval] of [
          [0.95, want.interval95],
          [0.9, want.interval90],
        ] as const) {
          const asked = method === 'paired' ? { method, order } : {};
          const { method: used, rows } = compare([example], { confidence, ...asked });
          const got = rows[0].inference;
          assert.ok(got && used === method);
          close(got.difference, want.difference, 1e-12, 'difference');
          close(got.standardError, want.standardError, 1e-9, 'standard error');
          close(got.df, want.df, 1e-7, 'degrees of freedom');
          close(got.p, want.p, 1e-7, 'p');
          close(got.interval.low, interval[0], 1e-9, 'low end');
          close(got.interval.high, interval[1], 1e-9, 'high end');
        }
      });
    }

    it(`${name}, difference with a steady drift taken out`, () => {
      const got = compare([example], { method: 'trend', order }).rows[0].inference;
      close(got?.difference ?? NaN, example.trend?.difference ?? 0, 1e-10, 'difference');
    });
  }
});

describe('the worked example of three runs of each', () => {
  // Worked example, recomputed with scipy 1.10.1: A 0.300, 0.312, 0.305 g, B 0.262, 0.255, 0.270 g.
  const bands = [{ a: [0.3, 0.312, 0.305], b: [0.262, 0.255, 0.27] }];
  const digits = (method: 'paired' | undefined): string[] => {
    const inference = compare(bands, { method }).rows[0].inference;
    assert.ok(inference);
    return [inference.ratio, inference.interval.low, inference.interval.high].map((ratio) => ratio.toFixed(4));
  };

  it('by Welch gives d = -0.15302, se 0.020044, df 3.549, p 0.00252685 and 0.8581 [0.8093, 0.9099]', () => {
    const inference = compare(bands).rows[0].inference;
    assert.ok(inference);
    assert.equal(inference.difference.toFixed(5), '-0.15302');
    assert.equal(inference.standardError.toFixed(9), '0.020043700');
    assert.equal(inference.df.toFixed(7), '3.5487366');
    assert.equal(inference.p.toFixed(8), '0.00252685');
    assert.deepEqual(digits(undefined), ['0.8581', '0.8093', '0.9099']);
  });

  it('paired gives [0.7717, 0.9542]', () => assert.deepEqual(digits('paired'), ['0.8581', '0.7717', '0.9542']));
});

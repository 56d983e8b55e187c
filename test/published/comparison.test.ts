import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { compare } from '../../src/statistics/compare.ts';
import { equivalence } from '../../src/statistics/equivalence.ts';
import { methods, type Method } from '../../src/statistics/methods.ts';
import { smallestChange, twoSamplePower } from '../../src/statistics/repeats.ts';
import { welchT } from '../../src/statistics/welchT.ts';
import { close, near } from './vectors.ts';

interface MethodFigures {
  readonly difference: number;
  readonly standardError: number;
  readonly df: number;
  readonly p: number;
  readonly ratio: number;
  readonly interval95: [number, number];
  readonly interval90: [number, number];
  readonly drift?: { readonly slope: number; readonly p: number };
}

type Example = {
  readonly a: number[];
  readonly b: number[];
  readonly orderA: number[];
  readonly orderB: number[];
  readonly equivalence: { readonly margin: number; readonly p: number }[];
} & Partial<Record<Method, MethodFigures>>;

interface Reference {
  readonly examples: Record<string, Example>;
  readonly planning: {
    readonly spreads: number[];
    readonly runs: number[];
    readonly smallestReductionPercent: number[][];
    readonly power: [effect: number, runs: number, power: number][];
  };
}

// Recomputed with the t tests of scipy 1.10.1 and the least squares of numpy 1.24.2
// (scripts/reference/make-comparison-vectors.py).
const reference = JSON.parse(readFileSync(new URL('vectors/comparison.json', import.meta.url), 'utf8')) as Reference;

describe('comparisons agree with the t tests of scipy and the least squares of numpy', () => {
  for (const [name, example] of Object.entries(reference.examples)) {
    for (const method of methods) {
      const want = example[method];
      if (!want) continue;
      it(`${name}, ${method}`, () => {
        for (const [confidence, interval] of [
          [0.95, want.interval95],
          [0.9, want.interval90],
        ] as const) {
          const { method: used, rows } = compare([example], {
            method,
            confidence,
            orderA: example.orderA,
            orderB: example.orderB,
          });
          const got = rows[0].inference;
          assert.ok(got && used === method);
          close(got.difference, want.difference, 1e-12, 'difference');
          close(got.standardError, want.standardError, 1e-11, 'standard error');
          close(got.df, want.df, 1e-9, 'degrees of freedom');
          close(got.p, want.p, 1e-9, 'p');
          close(got.interval.low, interval[0], 1e-11, 'low end');
          close(got.interval.high, interval[1], 1e-11, 'high end');
          if (want.drift) {
            close(got.drift?.perRun ?? NaN, Math.expm1(want.drift.slope), 1e-9, 'drift');
            close(got.drift?.p ?? NaN, want.drift.p, 1e-9, 'p of the drift');
          }
        }
      });
    }

    it(`${name}, two one-sided tests`, () => {
      const estimate = welchT(example.a.map(Math.log), example.b.map(Math.log));
      assert.ok(estimate);
      for (const { margin, p } of example.equivalence)
        close(equivalence(estimate, margin, 0.95).p, p, 1e-9, `margin ${margin}`);
    });
  }
});

describe('the worked example of three runs of each', () => {
  // Worked example, recomputed with scipy 1.10.1: A 0.300, 0.312, 0.305 g, B 0.262, 0.255, 0.270 g.
  const bands = [{ a: [0.3, 0.312, 0.305], b: [0.262, 0.255, 0.27] }];
  const digits = (method: Method): string[] => {
    const inference = compare(bands, { method }).rows[0].inference;
    assert.ok(inference);
    return [inference.ratio, inference.interval.low, inference.interval.high].map((ratio) => ratio.toFixed(4));
  };

  it('by Welch gives d = -0.15302, se 0.020044, df 3.549 and 0.8581 [0.8093, 0.9099]', () => {
    const inference = compare(bands).rows[0].inference;
    assert.ok(inference);
    assert.equal(inference.difference.toFixed(5), '-0.15302');
    assert.equal(inference.standardError.toFixed(6), '0.020044');
    assert.equal(inference.df.toFixed(3), '3.549');
    assert.deepEqual(digits('welch'), ['0.8581', '0.8093', '0.9099']);
  });

  it('pooled gives [0.8117, 0.9072]', () => assert.deepEqual(digits('pooled'), ['0.8581', '0.8117', '0.9072']));
  it('paired gives [0.7717, 0.9542]', () => assert.deepEqual(digits('paired'), ['0.8581', '0.7717', '0.9542']));
});

describe('planning agrees with the noncentral t of scipy', () => {
  it('in the power of a test', () => {
    for (const [effect, runs, power] of reference.planning.power) {
      near([twoSamplePower(effect, 1, runs)], [power], 1e-9, `effect ${effect}, ${runs} runs`);
    }
  });

  it('in the smallest reduction that each number of runs shows', () => {
    const { spreads, runs, smallestReductionPercent } = reference.planning;
    smallestReductionPercent.forEach((row, k) => {
      const found = runs.map((count) => smallestChange(count, { spread: spreads[k] }).reductionPercent);
      near(found, row, 1e-8, `spread ${spreads[k]}`);
    });
  });
});

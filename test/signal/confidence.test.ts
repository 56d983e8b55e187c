import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { confidenceFactors, effectiveAverages } from '../../src/signal/confidence.ts';
import { windowShape } from '../../src/signal/windows.ts';
import { close } from '../published/vectors.ts';

describe('effectiveAverages', () => {
  const hann = windowShape('hann', 96);

  it('without overlap are the segments themselves, however they lie in stretches', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 50 }), { minLength: 1, maxLength: 5 }), (counts) => {
        const all = counts.reduce((sum, count) => sum + count);
        close(effectiveAverages(hann, 96, counts), all, 1e-13);
      }),
    );
  });

  it('equal the double sum over all pairs of segments, none of them across a gap', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 10, max: 96 }),
        fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 3 }),
        (hop, counts) => {
          const squares = hann.reduce((sum, value) => sum + value * value, 0);
          const rho = (shift: number): number =>
            shift >= 96 ? 0 : (hann.subarray(shift).reduce((sum, value, n) => sum + value * hann[n], 0) / squares) ** 2;
          let [all, variance] = [0, 0];
          for (const count of counts) {
            all += count;
            for (let i = 0; i < count; i++) for (let j = 0; j < count; j++) variance += rho(Math.abs(i - j) * hop);
          }
          close(effectiveAverages(hann, hop, counts), all ** 2 / variance, 1e-12);
        },
      ),
    );
  });

  it('of no segment are 0', () => assert.equal(effectiveAverages(hann, 48, [0]), 0));
});

describe('confidenceFactors', () => {
  it('divide the degrees of freedom by the quantiles of the tails', () => {
    const asked: [number, number][] = [];
    const { lower, upper } = confidenceFactors(12, 0.9, (p, dof) => {
      asked.push([Number(p.toFixed(12)), dof]);
      return p > 0.5 ? 36 : 16;
    });
    assert.deepEqual(asked, [
      [0.95, 24],
      [0.05, 24],
    ]);
    assert.deepEqual([lower, upper], [24 / 36, 24 / 16]);
  });
});

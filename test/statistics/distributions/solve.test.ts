import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { solveMonotone } from '../../../src/statistics/distributions/solve.ts';

const place = fc.double({ min: -90, max: 90, noNaN: true });

describe('solveMonotone', () => {
  it('finds the zero of a rising and of a falling function, wherever it begins', () => {
    fc.assert(
      fc.property(place, place, (zero, start) => {
        const bent = (u: number): number => Math.atan(u - zero);
        const slope = (u: number): number => 1 / (1 + (u - zero) ** 2);
        const rising = solveMonotone((u) => ({ value: bent(u), slope: slope(u) }), true, start, -100, 100);
        const falling = solveMonotone((u) => ({ value: -bent(u), slope: -slope(u) }), false, start, -100, 100);
        assert.ok(Math.abs(rising - zero) < 1e-9 && Math.abs(falling - zero) < 1e-9, `${rising}, ${falling}: ${zero}`);
      }),
    );
  });

  it('gives the nearer end where the zero lies beyond, and gets by without a finite value far out', () => {
    assert.ok(solveMonotone((u) => ({ value: u - 500, slope: 1 }), true, 0, -100, 100) > 99.9);
    assert.ok(solveMonotone((u) => ({ value: u + 500, slope: 1 }), true, 0, -100, 100) < -99.9);
    const steep = (u: number): number => (u < -5 ? -Infinity : u - 1);
    assert.equal(
      solveMonotone((u) => ({ value: steep(u), slope: 1 }), true, -50, -100, 100),
      1,
    );
  });
});

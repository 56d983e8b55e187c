import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { spreadBound } from '../../../src/readers/checks/spreadBound.ts';
import { median } from '../../../src/signal/percentile.ts';

const distances = (values: Float64Array, middle: number): Float64Array =>
  values.map((value) => Math.abs(value - middle));

function held(values: readonly number[]): void {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  if (!(low < high)) return;
  const { lowest, highest, distance } = spreadBound(Float64Array.from(values), low, high);
  const middle = median(Float64Array.from(values));
  assert.ok(lowest <= middle && middle <= highest, `${middle} in ${lowest} to ${highest}: ${values.join()}`);
  const found = median(distances(Float64Array.from(values), middle));
  assert.ok(distance <= found, `${distance} above ${found}: ${values.join()}`);
}

describe('what counts in bins tell of a spread', () => {
  it('bounds the median and the median distance from it, of any values', () => {
    const of = (value: fc.Arbitrary<number>): fc.Arbitrary<number[]> =>
      fc.array(value, { minLength: 2, maxLength: 300 });
    fc.assert(fc.property(of(fc.double({ noNaN: true, min: -1e9, max: 1e9 })), held), { numRuns: 500 });
    fc.assert(fc.property(of(fc.integer({ min: -600, max: 600 })), held), { numRuns: 500 });
    fc.assert(fc.property(of(fc.constantFrom(0, 0.1, 0.2, 0.3, 1, 1 / 3, 512, 511)), held), { numRuns: 500 });
  });

  it('is near to it of noise, so that few recordings have to be put in order', () => {
    // Sums of twelve even numbers are much as normal ones.
    let state = 1;
    const even = (): number => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32 - 0.5;
    const values = Float64Array.from({ length: 20_000 }, () =>
      Array.from({ length: 12 }, even).reduce((a, b) => a + b),
    );
    const [low, high] = [Math.min(...values), Math.max(...values)];
    const { distance } = spreadBound(values, low, high);
    const found = median(distances(values, median(values.slice())));
    assert.ok(distance > 0.9 * found, `${distance} of ${found}`);
  });
});

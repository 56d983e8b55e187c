import { strict as assert } from 'node:assert';
import { resolution } from '../../../src/readers/checks/resolution.ts';
import { runOf } from './made.ts';

const codesOf = (x: readonly number[] | Float64Array): string[] => resolution(runOf({ x }), {}).map(({ code }) => code);
const made = (count: number, value: (i: number) => number): Float64Array =>
  Float64Array.from({ length: count }, (_, i) => value(i));

describe('the step of a converter', () => {
  it('is told of values that lie whole steps apart, but for their last digit', () => {
    assert.deepEqual(codesOf(made(400, (i) => Math.round(2 * Math.sin(i)) / 1000)), ['resolution']);
    // Counts of 3.9 mg in g with three decimals: 0.004, 0.008, 0.012.
    assert.deepEqual(codesOf(made(400, (i) => Math.round(3.9 * Math.round(2 * Math.sin(i))) / 1000)), ['resolution']);
  });

  it('is told where every second step is left out', () => {
    const values = [0, 1, 3, 4, 6, 7, 9].map((steps) => steps / 1000);
    assert.deepEqual(codesOf(made(400, (i) => values[(i * 3) % 7])), ['resolution']);
  });

  it('is none of a tone that comes back to the same few values, or of a few samples', () => {
    const tone = made(400, (i) => Math.round(2e4 * Math.sin((2 * Math.PI * (i % 5)) / 5)) / 1e5);
    assert.deepEqual(codesOf(tone), []);
    assert.deepEqual(codesOf([0.01, 0.03, 0.02]), []);
  });
});

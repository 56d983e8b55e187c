import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { butterworth } from '../../src/signal/butterworth.ts';
import { Cancelled } from '../../src/signal/cancel.ts';
import { paddingOf, zeroPhase } from '../../src/signal/filter.ts';
import { near, record } from '../published/vectors.ts';
import { filterResponse } from './filterResponse.ts';

describe('zeroPhase', () => {
  const sections = butterworth('bandpass', 2, [10, 50], 350);

  it('passes the square of the response without a shift', () => {
    const rate = 1000;
    const tone = Float64Array.from({ length: 4000 }, (_, n) => Math.cos((2 * Math.PI * 40 * n) / rate));
    const lowpass = butterworth('lowpass', 4, [50], rate);
    const found = zeroPhase(lowpass, tone, new Float64Array(tone.length));
    const factor = filterResponse(lowpass, 40, rate) ** 2;
    near(
      found.subarray(1000, 3000),
      tone.subarray(1000, 3000).map((value) => factor * value),
      1e-9,
    );
  });

  it('is linear', () => {
    fc.assert(
      fc.property(fc.nat(), fc.nat(), fc.double({ min: -9, max: 9, noNaN: true }), (seedA, seedB, factor) => {
        const [a, b] = [record(seedA, 200), record(seedB, 200)];
        const both = zeroPhase(
          sections,
          a.map((value, i) => value + factor * b[i]),
          new Float64Array(200),
        );
        const [fa, fb] = [a, b].map((x) => zeroPhase(sections, x, new Float64Array(200)));
        const scale = 1 + Math.abs(factor);
        both.forEach((value, i) => assert.ok(Math.abs(value - fa[i] - factor * fb[i]) < 1e-11 * scale));
      }),
      { numRuns: 30 },
    );
  });

  it('of a record turned about is the result turned about, in the middle where the ends have died away', () => {
    const samples = record(6, 3000, 0);
    const forward = zeroPhase(sections, samples, new Float64Array(3000));
    const backward = zeroPhase(sections, samples.slice().reverse(), new Float64Array(3000)).reverse();
    near(backward.subarray(1000, 2000), forward.subarray(1000, 2000), 1e-9);
  });

  it('lets a constant through a lowpass and stops it in a highpass, from the first sample on', () => {
    const level = new Float64Array(100).fill(9.81);
    near(zeroPhase(butterworth('lowpass', 3, [20], 350), level, new Float64Array(100)), level, 1e-12);
    const rest = zeroPhase(butterworth('highpass', 4, [2], 350), level, new Float64Array(100));
    assert.ok(Math.max(...rest.map(Math.abs)) < 1e-9);
  });

  it('filters in place with the same result', () => {
    const samples = record(5, 500);
    const apart = zeroPhase(sections, samples, new Float64Array(500));
    assert.deepEqual(zeroPhase(sections, samples, samples), apart);
  });

  it('refuses a stretch no longer than its padding, and stops when cancelled', () => {
    const edge = paddingOf(sections);
    assert.equal(edge, 15);
    assert.throws(
      () => zeroPhase(sections, new Float64Array(edge), new Float64Array(edge)),
      /too short .* more than 15/,
    );
    assert.doesNotThrow(() => zeroPhase(sections, new Float64Array(edge + 1), new Float64Array(edge + 1)));
    const long = new Float64Array(1_100_000);
    assert.throws(() => zeroPhase(sections, long, long, () => true), Cancelled);
  });
});

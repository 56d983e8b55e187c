import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { butterworth, type FilterKind } from '../../src/signal/butterworth.ts';
import { Cancelled } from '../../src/signal/cancel.ts';
import { filterResponse, paddingOf, zeroPhase } from '../../src/signal/filter.ts';
import { close, near, record } from '../published/vectors.ts';

const kinds: [FilterKind, number[]][] = [
  ['lowpass', [40]],
  ['highpass', [2]],
  ['bandpass', [10, 50]],
];

const design = fc.tuple(fc.constantFrom(...kinds), fc.integer({ min: 1, max: 8 }));

describe('butterworth', () => {
  it('passes 1/sqrt 2 of the amplitude at each corner, whatever its order', () => {
    fc.assert(
      fc.property(design, ([[kind, corners], order]) => {
        const sections = butterworth(kind, order, corners, 350);
        for (const corner of corners) close(filterResponse(sections, corner, 350), Math.SQRT1_2, 1e-9);
      }),
    );
  });

  it('passes all of the middle of its band and nothing at its stop ends', () => {
    close(filterResponse(butterworth('lowpass', 4, [40], 350), 0, 350), 1, 1e-12);
    close(filterResponse(butterworth('highpass', 4, [2], 350), 175, 350), 1, 1e-12);
    assert.ok(filterResponse(butterworth('highpass', 4, [2], 350), 0, 350) < 1e-12);
    assert.ok(filterResponse(butterworth('lowpass', 3, [40], 350), 175, 350) < 1e-12);
  });

  it('is stable: every pole lies within the unit circle', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10 }), fc.double({ min: 0.01, max: 170, noNaN: true }), (order, corner) => {
        for (const kind of ['lowpass', 'highpass'] as const) {
          for (const { a1, a2 } of butterworth(kind, order, [corner], 350))
            assert.ok(Math.abs(a2) < 1 && Math.abs(a1) < 1 + a2);
        }
      }),
    );
  });

  it('refuses a corner outside the range, exchanged corners and a broken order, and says what is right', () => {
    assert.throws(() => butterworth('lowpass', 4, [175], 350), /below half the rate, 175 Hz; not at 175 Hz/);
    assert.throws(() => butterworth('highpass', 4, [0], 350), RangeError);
    assert.throws(() => butterworth('bandpass', 4, [50, 10], 350), /lower corner first/);
    assert.throws(() => butterworth('bandpass', 4, [50], 350), /two corners/);
    assert.throws(() => butterworth('lowpass', 2.5, [50], 350), /whole number/);
  });
});

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

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { butterworth, type FilterKind } from '../../src/signal/butterworth.ts';
import { close } from '../published/vectors.ts';
import { filterResponse } from './filterResponse.ts';

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
    for (const upper of [10, 50])
      assert.throws(() => butterworth('bandpass', 4, [50, upper], 350), /lower corner first/);
    assert.throws(() => butterworth('bandpass', 4, [50], 350), /two corners/);
    for (const order of [2.5, 0, -1]) assert.throws(() => butterworth('lowpass', order, [50], 350), /whole number/);
  });
});

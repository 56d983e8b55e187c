import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { octaveBands, wholeOctaveBands } from '../../src/signal/octave.ts';
import { close } from '../published/vectors.ts';

describe('octaveBands', () => {
  it('join without a gap, each edge shared to the last bit, each middle the geometric mean of its edges', () => {
    for (const fraction of [1, 2, 3, 6, 12, 24]) {
      const bands = octaveBands(fraction, 1, 1000);
      bands.forEach(({ low, middle, high }, i) => {
        if (i > 0) assert.equal(low, bands[i - 1].high);
        close(middle, Math.sqrt(low * high), 1e-14);
      });
    }
  });

  it('go from the band that holds the lower end to the one that holds the upper', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(1, 3, 6, 12, 24),
        fc.double({ min: 0.1, max: 500, noNaN: true }),
        fc.double({ min: 1, max: 50, noNaN: true }),
        (fraction, low, times) => {
          const bands = octaveBands(fraction, low, low * times);
          const hair = 1e-12;
          assert.ok(bands[0].low <= low * (1 + hair) && low <= bands[0].high * (1 + hair));
          const last = bands[bands.length - 1];
          assert.ok(last.low <= low * times * (1 + hair) && low * times <= last.high * (1 + hair));
        },
      ),
    );
  });

  it('from 1 to 160 Hz in thirds are the 23 that carry these names', () => {
    const names = octaveBands(3, 1, 160).map(({ nominal }) => nominal);
    assert.deepEqual(
      names,
      [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10, 12.5, 16, 20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160],
    );
  });

  it('refuse a range that touches 0 or runs backwards, and a broken fraction', () => {
    assert.throws(() => octaveBands(3, 0, 10), RangeError);
    assert.throws(() => octaveBands(3, 10, 1), RangeError);
    assert.throws(() => octaveBands(1.5, 1, 10), RangeError);
  });
});

describe('wholeOctaveBands', () => {
  it('end where the range ends, but for a band that an end names', () => {
    const names = (low: number, high: number): number[] => wholeOctaveBands(3, low, high).map(({ nominal }) => nominal);
    assert.deepEqual(names(31.5, 150), [31.5, 40, 50, 63, 80, 100, 125]);
    assert.deepEqual(names(31.5, 160), [31.5, 40, 50, 63, 80, 100, 125, 160]);
    assert.deepEqual(names(30, 85), [40, 50, 63]);
    assert.deepEqual(names(22.4, 70.8), [25, 31.5, 40, 50, 63], 'edges as they are usually rounded');
    assert.deepEqual(names(26, 28), []);
  });

  it('leave out no band that lies within the range, and none sticks out of it', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(1, 3, 6, 12, 24),
        fc.double({ min: 0.1, max: 500, noNaN: true }),
        fc.double({ min: 1, max: 50, noNaN: true }),
        (fraction, low, times) => {
          const high = low * times;
          const bands = wholeOctaveBands(fraction, low, high);
          const all = octaveBands(fraction, low / 20, high * 20);
          const hair = 1 + 1e-12;
          const named = ({ nominal, middle }: (typeof all)[number]): boolean =>
            [low, high].some((end) => Math.abs(end / nominal - 1) < 1e-8 || Math.abs(end / middle - 1) <= 1e-3);
          for (const band of all) {
            const within = band.low * hair >= low && band.high <= high * hair;
            const out = band.low * 1.0051 < low || band.high > high * 1.0051;
            const found = bands.some((one) => one.nominal === band.nominal && one.middle === band.middle);
            if (within) assert.ok(found);
            if (found && out) assert.ok(named(band));
          }
        },
      ),
    );
  });
});

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { median, percentiles } from '../../src/signal/percentile.ts';

describe('percentiles', () => {
  it('equal those of the sorted values', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 1, maxLength: 80 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (values, share) => {
          const sorted = values.slice().sort((a, b) => a - b);
          const place = share * (values.length - 1);
          const low = sorted[Math.floor(place)];
          const expected = low + ((sorted[Math.floor(place) + 1] ?? low) - low) * (place - Math.floor(place));
          assert.ok(Math.abs(percentiles(Float64Array.from(values), [share])[0] - expected) < 1e-12);
        },
      ),
    );
  });

  it('of many equal values end', () => {
    assert.equal(median(new Float64Array(100_001).fill(3)), 3);
  });
});

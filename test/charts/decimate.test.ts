import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { binsToDraw, envelope, pointLimit } from '../../src/charts/decimate.ts';

const levels = fc.array(fc.double({ min: 1e-9, max: 1, noNaN: true }), { minLength: 10, maxLength: 3000 });

describe('binsToDraw', () => {
  it('takes every bin but the one at 0 Hz while there are few', () => {
    assert.deepEqual(binsToDraw(new Float64Array(6).fill(1), 0.5, 0, 2.5, 'linear'), [1, 2, 3, 4, 5]);
  });

  it('takes the bins on the edges of the range', () => {
    assert.deepEqual(binsToDraw(new Float64Array(100).fill(1), 0.1, 0.3, 0.7, 'linear'), [3, 4, 5, 6, 7]);
  });

  it('never gives more points than wanted, in ascending order, and keeps the highest and the lowest', () => {
    fc.assert(
      fc.property(
        levels,
        fc.constantFrom('linear' as const, 'log' as const),
        fc.integer({ min: 10, max: 400 }),
        (list, scale, limit) => {
          const level = Float64Array.from(list);
          const even = limit - (limit % 2);
          const bins = binsToDraw(level, 1, 0, Infinity, scale, even);
          assert.ok(bins.length <= even);
          assert.ok(bins.every((bin, index) => bin >= 1 && (index === 0 || bin > bins[index - 1])));
          const drawn = bins.map((bin) => level[bin]);
          const all = level.subarray(1);
          assert.equal(Math.max(...drawn), Math.max(...all));
          assert.equal(Math.min(...drawn), Math.min(...all));
        },
      ),
    );
  });

  it('gives low frequencies their room on a log axis', () => {
    const level = new Float64Array(20001).fill(1);
    const below = binsToDraw(level, 0.5, 0, Infinity, 'log').filter((bin) => bin < 20);
    assert.equal(below.length, 19);
  });

  it('gives nothing where the range holds no bin', () =>
    assert.deepEqual(binsToDraw(new Float64Array(5), 1, 10, 20, 'linear'), []));
});

describe('envelope', () => {
  it('holds every sample between its lowest and highest', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 1, maxLength: 2000 }),
        fc.integer({ min: 1, max: 100 }),
        (list, columns) => {
          const samples = Float64Array.from(list);
          const { at, low, high } = envelope(samples, 0, samples.length, columns);
          assert.equal(at.length, Math.min(columns, samples.length));
          samples.forEach((sample, index) => {
            const column = at.findLastIndex((start) => start <= index);
            assert.ok(low[column] <= sample && sample <= high[column]);
          });
        },
      ),
    );
  });

  it('is the samples themselves when they are few', () => {
    assert.deepEqual(envelope(Float64Array.from([3, 1, 2]), 0, 3), { at: [0, 1, 2], low: [3, 1, 2], high: [3, 1, 2] });
    assert.ok(pointLimit >= 500);
  });
});

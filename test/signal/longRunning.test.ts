import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { LongRunning } from '../../src/signal/longRunning.ts';
import { runningRms } from '../../src/signal/running.ts';
import { noise } from '../published/vectors.ts';

describe('the running r.m.s. of a stretch that comes block by block', () => {
  it('is to the last digit that of the whole, of every stretch after another', () => {
    const sizes = fc.array(fc.integer({ min: 1, max: 300 }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(sizes, sizes, fc.integer({ min: 1, max: 120 }), fc.nat(), (one, other, length, seed) => {
        const found: number[][] = [];
        const sum = new LongRunning(length, 0.25, (values, first) => {
          const last = found[found.length - 1];
          assert.equal(first, last.length + length - 1);
          last.push(...values);
        });
        const wanted = [one, other].map((blocks, s) => {
          const samples = noise(
            seed + s,
            blocks.reduce((all, size) => all + size, 0),
          );
          found.push([]);
          let at = 0;
          for (const size of blocks) sum.add(samples.slice(at, (at += size)));
          sum.end();
          return samples.length < length ? [] : [...runningRms(samples, length, 0.25).values];
        });
        assert.deepEqual(found, wanted);
      }),
    );
  });
});

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { Outlines } from '../../../src/readers/long/outlines.ts';

describe('the outline of a long recording', () => {
  it('is the lowest and the highest of every so many samples, counted anew behind each gap, however they come', () => {
    const pieces = fc.array(fc.tuple(fc.array(fc.integer({ min: -50, max: 50 }), { maxLength: 40 }), fc.boolean()), {
      minLength: 1,
      maxLength: 8,
    });
    const law = fc.property(pieces, fc.integer({ min: 1, max: 12 }), (given, stride) => {
      const outlines = new Outlines(2, stride);
      const stretches: number[][] = [];
      for (const [k, [samples, mayGoOn]] of given.entries()) {
        const goesOn = k > 0 && mayGoOn;
        outlines.add([Float64Array.from(samples), Float64Array.from(samples, (value) => 3 - value)], goesOn);
        if (goesOn) stretches[stretches.length - 1].push(...samples);
        else stretches.push([...samples]);
      }
      const blocks = stretches.map((all) =>
        Array.from({ length: Math.ceil(all.length / stride) }, (_, b) => all.slice(b * stride, (b + 1) * stride)),
      );
      const starts = stretches.map((_, s) => ({
        block: blocks.slice(0, s).flat().length,
        row: stretches.slice(0, s).flat().length,
      }));
      const [low, high] = [Math.min, Math.max].map((end) => blocks.flat().map((block) => end(...block)));
      assert.deepEqual(outlines.of(0), { stride, low: Float64Array.from(low), high: Float64Array.from(high), starts });
      assert.deepEqual(
        outlines.of(1).low,
        Float64Array.from(high, (value) => 3 - value),
      );
    });
    fc.assert(law);
  });
});

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { drawnSamples, envelope } from '../../src/signal/envelope.ts';
import { resultant } from '../../src/signal/resultant.ts';
import { noise } from '../published/vectors.ts';

const drawing = fc.record({
  count: fc.integer({ min: 1, max: 300 }),
  columns: fc.integer({ min: 1, max: 400 }),
  seed: fc.nat(),
});

describe('envelope', () => {
  it('loses no peak: each column holds the extremes of its samples, and the columns hold all samples', () => {
    fc.assert(
      fc.property(drawing, ({ count, columns, seed }) => {
        const samples = noise(seed, count);
        const { edges, smallest, largest } = envelope(samples, 0, count, columns);
        assert.equal(edges[0], 0);
        assert.equal(edges[edges.length - 1], count);
        assert.ok(smallest.length <= columns);
        for (let c = 0; c < smallest.length; c++) {
          const column = samples.subarray(edges[c], edges[c + 1]);
          assert.equal(smallest[c], Math.min(...column));
          assert.equal(largest[c], Math.max(...column));
        }
      }),
    );
  });

  it('of part of a signal looks at that part only', () => {
    const { smallest, largest } = envelope(Float64Array.of(9, 1, 2, 3, 4, -9), 1, 5, 2);
    assert.deepEqual(
      [[...smallest], [...largest]],
      [
        [1, 3],
        [2, 4],
      ],
    );
  });

  it('of nothing is empty', () => {
    assert.equal(envelope(new Float64Array(5), 2, 2, 100).smallest.length, 0);
  });
});

describe('drawnSamples', () => {
  it('are in order, each once, with the first, the last and both extremes', () => {
    fc.assert(
      fc.property(drawing, ({ count, columns, seed }) => {
        const samples = noise(seed, count);
        const kept = [...drawnSamples(samples, 0, count, columns)];
        assert.ok(kept.every((index, i) => i === 0 || index > kept[i - 1]));
        assert.equal(kept[0], 0);
        assert.equal(kept[kept.length - 1], count - 1);
        const drawn = kept.map((index) => samples[index]);
        assert.equal(Math.max(...drawn), Math.max(...samples));
        assert.equal(Math.min(...drawn), Math.min(...samples));
      }),
    );
  });
});

describe('resultant', () => {
  it('is the length of the vector, never below an axis', () => {
    assert.deepEqual([...resultant([Float64Array.of(3, 0), Float64Array.of(4, -2), Float64Array.of(12, 0)])], [13, 2]);
  });

  it('refuses no axes and axes of different lengths', () => {
    assert.throws(() => resultant([]), /at least one/);
    assert.throws(() => resultant([new Float64Array(2), new Float64Array(3)]), /different lengths/);
  });
});

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { Outlines } from '../../src/readers/long/outlines.ts';
import { trimmed } from '../../src/analysis/recordings/trim.ts';
import { unit } from '../../src/units/parse.ts';
import { drawnRun } from '../../src/values/outline.ts';
import { signalsOf, type Run } from '../../src/values/run.ts';
import { noise } from '../published/vectors.ts';

const rate = 100;

/** A run of two stretches with a gap of 5 s between, outlined by blocks of `stride` samples, and its samples. */
function longRun(
  lengths: readonly [number, number],
  stride: number,
): { readonly run: Run; readonly samples: Float64Array } {
  const [one, other] = lengths;
  const samples = noise(3, one + other);
  const outlines = new Outlines(1, stride);
  outlines.add([samples.subarray(0, one)], false);
  outlines.add([samples.subarray(one)], false);
  const none = new Float64Array(0);
  const signal = { name: 'z', unit: unit('g'), unitFrom: 'the header', samples: none, includesStatic: true };
  const sizes = { from: 1, part: 1, most: 1 };
  const rows = one + other;
  const run: Run = {
    label: 'long',
    file: { path: 'long.csv', bytes: 0, sha256: '' },
    rate,
    channels: [{ ...signal, outline: outlines.of(0) }],
    stretches: [
      { from: 0, to: one, start: 0 },
      { from: one, to: rows, start: one / rate + 5 },
    ],
    start: 0,
    history: [],
    findings: [],
    layout: { format: 'delimited text', rows },
    long: { recording: { rows, parts: [], sizes }, reading: {}, channels: [], from: 0, to: rows },
  };
  return { run, samples };
}

describe('a run that is too large for memory, as it is drawn', () => {
  it('has of every stretch, trimmed or not, the extremes of its samples at their times, to a block', () => {
    const count = fc.integer({ min: 20, max: 400 });
    fc.assert(
      fc.property(
        count,
        count,
        fc.integer({ min: 1, max: 15 }),
        fc.double({ min: 0, max: 0.15, noNaN: true }),
        (one, other, stride, from) => {
          const { run, samples } = longRun([one, other], stride);
          const cut = trimmed({ kind: 'runs', set: undefined, runs: [run] }, { from }, 'from');
          assert.ok(cut.ok);
          const [part] = cut.value.runs;
          const drawn = drawnRun(part);
          const [{ samples: shown }] = signalsOf(drawn);
          assert.equal(drawn.stretches.length, 2);
          const offset = part.long!.from;
          for (const [s, stretch] of drawn.stretches.entries()) {
            const { from: first, to, start } = part.stretches[s];
            assert.ok(stretch.start <= start + 1e-9 && stretch.start > start - stride / rate);
            const own = [...samples.subarray(first + offset, to + offset)];
            const all = [...shown.subarray(stretch.from, stretch.to)];
            const inner = [...all.slice(2, -2)];
            assert.ok(Math.min(...all) <= Math.min(...own) && Math.max(...all) >= Math.max(...own));
            if (inner.length > 0)
              assert.ok(Math.min(...inner) >= Math.min(...own) && Math.max(...inner) <= Math.max(...own));
            assert.ok(Math.abs((stretch.to - stretch.from) / drawn.rate - (to - first) / rate) <= (2 * stride) / rate);
          }
          assert.equal(
            drawn.untrimmed && signalsOf(drawn.untrimmed)[0].samples.length,
            2 * (Math.ceil(one / stride) + Math.ceil(other / stride)),
          );
        },
      ),
    );
  });

  it('is itself where its samples stand in memory', () => {
    const { run, samples } = longRun([50, 50], 5);
    const { long: _parts, ...rest } = run;
    const own: Run = { ...rest, channels: signalsOf(run).map((signal) => ({ ...signal, samples })) };
    assert.equal(drawnRun(own), own);
  });
});

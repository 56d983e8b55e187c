import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { sharedMemory } from '../../src/numbers/compiled.ts';
import { columnWork, ColumnVectors } from '../../src/readers/columnVectors.ts';
import {
  factsOfNone,
  plainEvery,
  plainLeastSpan,
  plainLook,
  plainNear,
  plainSpread,
  plainSteps,
  type FactsSoFar,
} from '../../src/readers/plainFacts.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

const vectors = (): ColumnVectors => ColumnVectors.here() ?? assert.fail('this host has vectors');

const number = fc.oneof(
  fc.integer({ min: -3, max: 3 }),
  fc.constantFrom(NaN, -0, 0, 1e-310, -1e150),
  fc.double({ min: -1e6, max: 1e6, noNaN: true }),
);

/** Numbers in which some values are held for a while. */
const columns = fc
  .array(fc.tuple(number, fc.integer({ min: 1, max: 4 })), { maxLength: 60 })
  .map((held) => Float64Array.from(held.flatMap(([value, times]) => Array<number>(times).fill(value))));

/** Lengths around those that are looked at in one go. */
const lengths = [8190, 8191, 8192, 8193, 16_384, 16_385, 20_001];

const longColumn = (length: number): Float64Array =>
  Float64Array.from({ length }, (_, i) => Math.round(1e4 * Math.sin(i * i)) / (i % 7 === 0 ? 1e4 : 100));

/** The facts of numbers that are looked at in two parts. */
function lookedAt(values: Float64Array, cut: number, look: typeof plainLook): FactsSoFar {
  const all = factsOfNone();
  look(all, values, 0, cut);
  look(all, values, cut, values.length);
  return all;
}

const byVectors: typeof plainLook = (all, values, from, to) => vectors().look(all, values, from, to);

describe('passes over a column with vectors', () => {
  it('tell the facts of the plain loop, to the bit', () => {
    fc.assert(
      fc.property(columns, fc.nat(), (values, at) => {
        const cut = at % (values.length + 1);
        assert.deepEqual(lookedAt(values, cut, byVectors), lookedAt(values, 0, plainLook));
      }),
      { numRuns: 500 },
    );
    for (const length of lengths) {
      const values = longColumn(length);
      assert.deepEqual(lookedAt(values, 77, byVectors), lookedAt(values, 0, plainLook), String(length));
      values.fill(0.5, 8000, 8300);
      assert.deepEqual(lookedAt(values, 8191, byVectors), lookedAt(values, 0, plainLook), `held, ${length}`);
    }
  });

  it('count what lies near two ends as the plain loop does', () => {
    const distance = fc.double({ min: 0, max: 10, noNaN: true });
    const asked = fc.tuple(columns, number, number, fc.tuple(distance, distance, distance, distance));
    fc.assert(
      fc.property(asked, ([values, low, high, distances]) => {
        assert.deepEqual(vectors().nearTo(values, [low, high], distances), plainNear(values, low, high, distances));
      }),
    );
    for (const length of lengths) {
      const values = longColumn(length);
      const distances = [1e-9, 0.5, 20, 100] as const;
      const found = vectors().nearTo(values, [-100, 100], distances);
      assert.deepEqual(found, plainNear(values, -100, 100, distances), String(length));
      assert.ok(found[3] > found[1] && found[1] > 0, 'some are near and some are not');
    }
  });

  it('find the least span over so many rows as the plain loop does', () => {
    fc.assert(
      fc.property(columns, fc.integer({ min: 1, max: 70 }), (values, rows) => {
        assert.equal(vectors().leastSpan(values, rows), plainLeastSpan(values, rows));
      }),
      { numRuns: 500 },
    );
    for (const length of lengths) {
      const values = longColumn(length);
      const rising = values.map((value, i) => 0.01 * i + 1e-6 * value);
      for (const rows of [1, 2, 16, 2048, 4096])
        for (const some of [values, rising])
          assert.equal(vectors().leastSpan(some, rows), plainLeastSpan(some, rows), `${rows} of ${length}`);
    }
    assert.equal(vectors().leastSpan(longColumn(20_001), 4097), undefined, 'no room for the rows before');
    const memory = sharedMemory(columnWork + 8 * 40_000);
    ColumnVectors.workIn(memory, 0);
    const here = new Float64Array(memory.buffer, columnWork, 40_000);
    here.set(longColumn(40_000));
    for (const rows of [1, 2048, 16_385])
      assert.equal(ColumnVectors.for(here)?.leastSpan(here, rows), plainLeastSpan(here, rows), String(rows));
  });

  it('pick each so many-th of numbers that stand in a memory of their own as the plain loop does', () => {
    const memory = sharedMemory(columnWork + 8 * 60_000);
    ColumnVectors.workIn(memory, 0);
    const all = new Float64Array(memory.buffer, columnWork, 60_000).map((_, i) => Math.sin(i));
    new Float64Array(memory.buffer, columnWork, 60_000).set(all);
    for (const [from, to, stride] of [
      [0, 60_000, 1],
      [0, 60_000, 7],
      [3, 8195, 1],
      [3, 8196, 1],
      [5, 59_999, 27],
      [0, 1, 4],
    ]) {
      const values = new Float64Array(memory.buffer, columnWork + 8 * from, to - from);
      const found = ColumnVectors.for(values)?.every(values, stride);
      assert.deepEqual(found, plainEvery(all.subarray(from, to), stride), `${from} to ${to} by ${stride}`);
    }
    assert.equal(vectors().every(all, 2), undefined, 'what stands elsewhere is not copied for it');
  });

  it('add up the spread of steps within spans as the plain loop does', () => {
    const bound = fc.double({ min: -2, max: 2, noNaN: true });
    const asked = fc.tuple(columns, fc.array(fc.nat(240), { maxLength: 4 }), bound, bound, bound);
    const law = fc.property(asked, ([values, cuts, mean, least, most]) => {
      const starts = [0, ...cuts.filter((cut) => cut < values.length)].sort((a, b) => a - b);
      const spans = starts.map((from, i) => ({ from, to: starts[i + 1] ?? values.length }));
      const around = { mean, least, most };
      assert.deepEqual(vectors().spreadOf(values, spans, around), plainSpread(values, spans, around));
    });
    fc.assert(law, { numRuns: 500 });
    for (const length of lengths) {
      const values = longColumn(length);
      const [spans, around] = [
        [
          { from: 3, to: 4100 },
          { from: 4100, to: length },
        ],
        { mean: 0.1, least: -1, most: 20 },
      ];
      const found = vectors().spreadOf(values, spans, around);
      assert.deepEqual(found, plainSpread(values, spans, around), String(length));
      assert.ok(found.within > 100 && found.within < length - 100, 'some lie within and some do not');
    }
  });

  it('count steps by their size within spans as the plain loop does', () => {
    const bound = fc.double({ min: 0, max: 4, noNaN: true });
    const asked = fc.tuple(columns, fc.array(fc.nat(240), { maxLength: 4 }), bound, bound, number);
    const law = fc.property(asked, ([values, cuts, one, other, middle]) => {
      const starts = [0, ...cuts.filter((cut) => cut < values.length)].sort((a, b) => a - b);
      const spans = starts.map((from, i) => ({ from, to: starts[i + 1] ?? values.length }));
      const bounds = { jump: Math.max(one, other), half: Math.min(one, other), middle };
      assert.deepEqual(vectors().stepsOf(values, spans, bounds), plainSteps(values, spans, bounds));
    });
    fc.assert(law, { numRuns: 500 });
    for (const length of lengths) {
      const [values, bounds] = [longColumn(length), { jump: 80, half: 40, middle: 0 }];
      const found = vectors().stepsOf(values, [{ from: 3, to: length }], bounds);
      assert.deepEqual(found, plainSteps(values, [{ from: 3, to: length }], bounds), String(length));
      assert.ok(Math.min(...Object.values(found)) > 100, 'there are some of each');
    }
  });

  it('are the build of their source, byte for byte', () => {
    const options = ['scripts/wasm/build.mjs', '--print', 'columns'];
    const built = execFileSync(process.execPath, options, { cwd: root, encoding: 'utf8' });
    assert.equal(readFileSync(`${root}/src/readers/columnKernel.ts`, 'utf8'), built);
  });
});

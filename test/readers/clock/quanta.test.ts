import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import {
  blockFrom,
  blocksOf,
  expectedAt,
  heldBy,
  likelihood,
  quantaOf,
  type Block,
  type Expected,
} from '../../../src/readers/clock/quanta.ts';

const close = (a: number, b: number, within = 1e-9): void => assert.ok(Math.abs(a - b) <= within, `${a} is not ${b}`);
const chancesOf = (own: readonly number[]): number[] => own.map((chance) => Math.exp(chance));

describe('the quanta in which samples lie', () => {
  it('are counted from that of the first stamp, with as many as share each', () => {
    assert.deepEqual(quantaOf(Float64Array.of(10, 10.001, 10.001, 10.003), 1e-3), { at: [0, 1, 3], count: [1, 2, 1] });
    const law = fc.property(fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 1 }), (steps) => {
      let at = 7;
      const places = steps.map((step, i) => (at += i === 0 ? 0 : step));
      const { at: found, count } = quantaOf(
        Float64Array.from(places, (place) => place * 0.25),
        0.25,
      );
      assert.deepEqual(
        found,
        [...new Set(places)].map((place) => place - 7),
      );
      assert.deepEqual(
        count,
        found.map((one) => places.filter((place) => place - 7 === one).length),
      );
    });
    fc.assert(law);
  });

  it('are cut into pieces, in which a gap of more than eight quanta is open and a shorter one empty', () => {
    const quanta = { at: [0, 1, 3, 11, 20], count: [1, 2, 1, 1, 500] };
    assert.deepEqual([...blockFrom(quanta, 0, 6)], [1, 2, 0, 1, -1, -1]);
    assert.deepEqual([...blockFrom(quanta, 2, 3)], [0, 1, -1]);
    assert.deepEqual([...blockFrom(quanta, 2, 11)], [0, 1, 0, 0, 0, 0, 0, 0, 0, 1, -1]);
    assert.deepEqual([...blockFrom(quanta, 11, 10)], [1, ...Array<number>(8).fill(-1), 127]);
    // What was before the piece tells what lies between.
    assert.deepEqual([...blockFrom(quanta, 5, 7)], [0, 0, 0, 0, 0, 0, 1]);
    assert.deepEqual([...blockFrom({ at: [2], count: [3] }, 0, 3)], [0, 0, 3]);
  });

  it('are looked at in four pieces from the first to the last, of which those are left out that gaps take half of', () => {
    const at = Array.from({ length: 100 }, (_, k) => k);
    const whole = { at, count: at.map((k) => 1 + (k % 7)) };
    const pieces = (quanta: typeof whole, length: number): number[][] =>
      blocksOf(quanta, length).map((block) => [...block]);
    const piece = (from: number, length: number): number[] => whole.count.slice(from, from + length);
    assert.deepEqual(
      pieces(whole, 10),
      [0, 30, 60, 90].map((from) => piece(from, 10)),
    );
    assert.deepEqual(
      pieces(whole, 40),
      [0, 60].map((from) => piece(from, 40)),
    );
    assert.deepEqual(pieces(whole, 100), [whole.count]);
    assert.deepEqual(pieces(whole, 101), []);
    const without = (from: number, to: number): typeof whole => {
      const left = at.filter((k) => k < from || k >= to);
      return { at: left, count: left.map((k) => whole.count[k]) };
    };
    // Of the second piece, from 27 on, ten are known, which is half, and then eleven.
    assert.equal(pieces(without(30, 40), 20).length, 3);
    assert.equal(pieces(without(30, 39), 20).length, 4);
  });

  it('that are empty are known all the same, and keep a piece', () => {
    const every = Array.from({ length: 40 }, (_, k) => 3 * k);
    assert.deepEqual(
      blocksOf({ at: every, count: every.map(() => 1) }, 30).map((block) => block.length),
      [30, 30, 30],
    );
  });

  it('and what pieces hold are added up without what gaps leave open', () => {
    assert.deepEqual(heldBy([Int8Array.of(1, -1, 0), Int8Array.of(-1, 3)]), { samples: 4, quanta: 3 });
  });
});

describe('what quanta are expected to hold', () => {
  it('is by chance that of the samples within, each of which is there or lost', () => {
    // From 0.26 to 0.76 of a turn no sample lies, from 0.76 on one does.
    const half = expectedAt(0.5, 0.9);
    assert.equal(half.rate, 0.5);
    const [none, one] = [half.chances[16], half.chances[48]].map(chancesOf);
    [1, 1e-4, 1e-4].forEach((chance, n) => close(none[n], chance));
    [0.1, 0.9, 1e-4].forEach((chance, n) => close(one[n], chance));
    // Two samples at any phase but at its ends: (1 - s)^2, 2 s (1 - s) and s^2.
    [0.04, 0.32, 0.64, 1e-4, 1e-4].forEach((chance, n) => close(chancesOf(expectedAt(2, 0.8).chances[30])[n], chance));
    assert.equal(expectedAt(2, 0.8).chances[30].length, 5);
  });

  it('is open at the ends of a quantum, as far as sampling is uneven', () => {
    // A sample at 0 that is off by up to half a bin and 0.02 of a step lies beyond the middle of the first bin so often.
    const beyond = 0.5 - 0.5 / 64 / (2 * (0.5 / 64 + 0.02));
    const { chances } = expectedAt(1, 0.9);
    const [first, second] = [0.9 * beyond, 0.9 * (1 - beyond)];
    const known = [(1 - first) * (1 - second), first + second - 2 * first * second, first * second];
    known.forEach((chance, n) => close(chancesOf(chances[0])[n], chance));
    // In the middle it is the one sample, whatever came at the ends.
    [0.1, 0.9, 1e-4].forEach((chance, n) => close(chancesOf(chances[32])[n], chance));
  });
});

describe('bins of phases', () => {
  it('are taken together where the same is expected of them, which is of most, and each once', () => {
    for (const rate of [0.6, 0.997, 1, 1.005, 1.5, 2, 3.9]) {
      const { chances, runs } = expectedAt(rate, 0.95);
      const bins = runs.flatMap(({ from, to }) => Array.from({ length: to - from }, (_, k) => from + k));
      assert.deepEqual(bins, [...chances.keys()]);
      for (const { from, to } of runs)
        for (let bin = from; bin < to; bin++) assert.equal(chances[bin], chances[from], `${rate}, bin ${bin}`);
      assert.ok(runs.length <= 12, `${runs.length} runs at ${rate}`);
    }
  });

  it('have chances whose sums are exact, so that no order of them matters', () => {
    for (const own of new Set(expectedAt(1.005, 0.95).chances))
      for (const chance of own) assert.ok(Number.isInteger(chance * 2 ** 32), String(chance));
  });
});

/** As `likelihood`, quantum by quantum. */
function slowly(block: Block, { rate, chances }: Expected): { score: number; turn: number; usual: number } {
  const binOf = (k: number): number => Math.floor((k * rate - Math.floor(k * rate)) * 64);
  const known = [...block.keys()].filter((k) => block[k] >= 0);
  const own = (k: number, turn: number): readonly number[] => chances[(binOf(k) - turn + 64) % 64];
  const scores = Array.from({ length: 64 }, (_, turn) =>
    known.reduce((sum, k) => sum + own(k, turn)[Math.min(block[k], chances[0].length - 1)], 0),
  );
  const score = Math.max(...scores);
  const turn = scores.findIndex((one) => one > score - 1e-6);
  const usual = known.reduce(
    (sum, k) => sum + own(k, turn).reduce((average, chance) => average + Math.exp(chance) * chance, 0),
    0,
  );
  return { score, turn, usual };
}

describe('how likely a piece is', () => {
  it('is the sum over its quanta at the phase at which it is largest, and so is what is usual there', () => {
    const law = fc.property(
      fc.double({ min: 0.6, max: 3.9, noNaN: true }),
      fc.double({ min: 0.5, max: 0.99, noNaN: true }),
      fc.array(fc.integer({ min: -1, max: 9 }), { minLength: 40, maxLength: 80 }),
      (rate, share, held) => {
        const [block, expected] = [Int8Array.from(held), expectedAt(rate, share)];
        const [found, known] = [likelihood(block, expected), slowly(block, expected)];
        close(found.score, known.score, 1e-6);
        // Where another phase is as likely, either may be given.
        if (Math.round(found.phase * 64) === known.turn) close(found.usual(), known.usual, 1e-6);
      },
    );
    fc.assert(law, { numRuns: 50 });
  });

  it('is largest at the phase by which its samples lie', () => {
    const rate = Math.SQRT2;
    for (const shift of [0.2, 0.55, 0.9]) {
      // Quantum k holds the samples from k rate - shift to (k + 1) rate - shift.
      const block = Int8Array.from(
        { length: 1024 },
        (_, k) => Math.ceil((k + 1) * rate - shift) - Math.ceil(k * rate - shift),
      );
      const { phase, score, usual } = likelihood(block, expectedAt(rate, 0.999));
      close(phase, shift, 1.01 / 64);
      assert.ok(score > usual() - 30, `${score} where ${usual()} is usual`);
      const other = likelihood(block, expectedAt(rate + 0.01, 0.999));
      assert.ok(other.score < score - 100, `${other.score} at another rate`);
    }
  });
});

import { strict as assert } from 'node:assert';
import { alongClock } from '../../src/signal/alongClock.ts';
import type { ClockedSignal } from '../../src/signal/clocks.ts';
import { twoClocks } from '../../src/signal/twoClocks.ts';
import { random } from '../../scripts/samples/random.ts';
import { shaking } from '../verbs/sideBySide.ts';

const signal = (of: (t: number) => number, rate: number, seconds: number, start = 0): ClockedSignal => ({
  rate,
  pieces: [{ samples: Float64Array.from({ length: rate * seconds }, (_, i) => of(start + i / rate)), start }],
});

describe('two clocks', () => {
  it('have errors that are as large as their estimates scatter', () => {
    const scores = Array.from({ length: 12 }, (_, k) => {
      const { gaussian: hiss } = random(7919 * k + 13);
      const acts = shaking(977 * k + 1);
      const a = signal((t) => acts(t) + 0.2 * hiss(), 160, 40);
      const b = signal((t) => acts((t + 0.3) / (1 + 50e-6)) + 0.2 * hiss(), 160, 40);
      const { fast, fastError, late, lateError } = twoClocks(a, b) ?? assert.fail('nothing found');
      return [(fast - 50e-6) / fastError!, (late - 0.3) / lateError!];
    });
    for (const which of [0, 1]) {
      const square = scores.reduce((sum, score) => sum + score[which] ** 2, 0) / scores.length;
      // t with about 10 degrees of freedom has a mean square of 1.25; 12 of them lie between 0.3 and 3; a parabola through whole lags gives 4 and more.
      assert.ok(square > 0.3 && square < 3, `${which}: ${square}`);
    }
  });

  it('tell which way round the other reads', () => {
    const acts = shaking(4);
    const found = twoClocks(
      signal(acts, 160, 20),
      signal((t) => -acts(t), 160, 20),
    );
    assert.equal(found?.sign, -1);
    assert.ok(Math.abs(found.late) < 1e-5);
  });

  it('are not told from signals that have nothing in common', () => {
    assert.equal(twoClocks(signal(shaking(4), 160, 20), signal(shaking(5), 160, 20)), undefined);
  });

  /** B's signal, whose clock shows t (1 + fast) - late at t. */
  const shown =
    (acts: (t: number) => number, late: number, fast: number) =>
    (t: number): number =>
      acts((t + late) / (1 + fast));

  it('are found in each other at any rate, however late one begins, and up to a thousandth apart', () => {
    const acts = shaking(3);
    for (const [late, fast, rate, from] of [
      [0.3, 1e-4, 160, 0],
      [0.3, 1e-4, 200, 2],
      [7, 1e-3, 180, 0],
      [-7, -1e-3, 180, 0],
    ]) {
      const found = twoClocks(signal(acts, 160, 26, 5), signal(shown(acts, late, fast), rate, 28, from));
      assert.ok(found !== undefined, `${late} s, ${fast}`);
      assert.ok(Math.abs(found.late - late) < 1e-7 && Math.abs(found.fast - fast) < 1e-8, JSON.stringify(found));
      assert.equal(found.sign, 1);
    }
  });

  it('may have gaps on either side', () => {
    const acts = shaking(3);
    const withGap = (of: (t: number) => number, rate: number): ClockedSignal => ({
      rate,
      pieces: [...signal(of, rate, 3).pieces, ...signal(of, rate, 12, 8).pieces],
    });
    const b = shown(acts, 0.3, 1e-4);
    for (const found of [
      twoClocks(withGap(acts, 160), signal(b, 160, 20)),
      twoClocks(signal(acts, 160, 20), withGap(b, 200)),
    ])
      assert.ok(found !== undefined && Math.abs(found.late - 0.3) < 1e-7, JSON.stringify(found));
  });

  it('are told by what little was recorded between rests, and by a few seconds', () => {
    const acts = shaking(3);
    const between = (t: number): number => (t > 8 && t < 14 ? acts(t) : 0);
    const rested = twoClocks(
      signal(between, 160, 40),
      signal((t) => between(t + 3), 160, 40),
    );
    assert.ok(rested !== undefined && Math.abs(rested.late - 3) < 1e-7, JSON.stringify(rested));
    const short = twoClocks(signal(acts, 160, 4), signal(shown(acts, 0.1, 0), 160, 4));
    assert.ok(short !== undefined && Math.abs(short.late - 0.1) < 1e-7, JSON.stringify(short));
    assert.deepEqual([short.fast, short.fastError], [0, undefined]);
  });

  it('are told where one of them recorded something far stronger before', () => {
    const [acts, other] = [shaking(3), shaking(8)];
    const found = twoClocks(
      signal(acts, 160, 20),
      signal((t) => (t < 0 ? 30 * other(t) : acts(t)), 160, 35, -15),
    );
    assert.ok(found !== undefined && Math.abs(found.late) < 1e-7, JSON.stringify(found));
  });

  it('are not told by a pure tone, by silence, by half a second, nor where they are 2 % apart and more', () => {
    const acts = shaking(3);
    const tone = (phase: number): ClockedSignal => signal((t) => Math.sin(20 * t + phase), 160, 20);
    assert.equal(twoClocks(tone(0), tone(1)), undefined);
    const silent = signal(() => 0, 160, 20);
    assert.equal(twoClocks(silent, signal(acts, 160, 20)), undefined);
    assert.equal(twoClocks(signal(acts, 160, 20), silent), undefined);
    assert.equal(twoClocks(signal(acts, 160, 0.5), signal(acts, 160, 0.5)), undefined);
    assert.equal(twoClocks(signal(acts, 160, 30), signal(shown(acts, 0, 0.025), 160, 30)), undefined);
  });
});

describe('along a clock', () => {
  it('both signals are read at the same moments, in the pieces that both hold', () => {
    const acts = shaking(3);
    const a = { rate: 160, pieces: [...signal(acts, 160, 5).pieces, ...signal(acts, 160, 5, 6).pieces] };
    const b = signal((t) => acts((t + 1) / (1 + 1e-3)), 200, 9);
    const pairs = alongClock(a, b, { late: 1, fast: 1e-3 });
    assert.equal(pairs.length, 2);
    for (const { input, output, start } of pairs) {
      input.forEach((value, i) => assert.ok(Math.abs(value - output[i]) < 1e-3));
      assert.ok(Math.abs(input[0] - acts(start)) < 1e-12);
    }
  });
});

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

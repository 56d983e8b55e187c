import { strict as assert } from 'node:assert';
import type { ClockedSignal } from '../../src/signal/clocks.ts';
import { fineLine } from '../../src/signal/clockLine.ts';
import { random } from '../../scripts/samples/random.ts';
import { shaking } from '../verbs/sideBySide.ts';

const signal = (of: (t: number) => number, rate: number, seconds: number, start = 0): ClockedSignal => ({
  rate,
  pieces: [
    { samples: Float64Array.from({ length: Math.round(rate * seconds) }, (_, i) => of(start + i / rate)), start },
  ],
});

describe('a line between two clocks', () => {
  const acts = shaking(11);

  it('is found to a ten-thousandth of a step where nothing disturbs it, from a line that is somewhat off', () => {
    for (const [late, fast, rate] of [
      [0, 0, 200],
      [0.3, 2e-4, 200],
      [-0.7, -1e-3, 180],
      [2.25, 5e-5, 256],
    ]) {
      const a = signal(acts, 200, 40);
      // B shows t (1 + fast) - late at t.
      const b = signal((shown) => acts((shown + late) / (1 + fast)), rate, 36, 1);
      const found = fineLine(a, b, { late: late + 0.02, fast: fast + 1e-4 }, 1) ?? assert.fail('nothing found');
      assert.ok(Math.abs(found.late - late) < 2e-5, `late ${found.late}, not ${late}`);
      assert.ok(Math.abs(found.fast - fast) < 1e-6, `fast ${found.fast}, not ${fast}`);
    }
  });

  it('tells of both errors, and of none of the rate where too few stretches tell one', () => {
    const long = fineLine(signal(acts, 200, 40), signal(acts, 200, 40), { late: 0.01, fast: 0 }, 1);
    assert.ok(long?.lateError !== undefined && long.fastError !== undefined);
    const short = fineLine(signal(acts, 200, 3.2), signal(acts, 200, 3.2), { late: 0.01, fast: 0 }, 1);
    assert.ok(short !== undefined && Math.abs(short.late) < 1e-4);
    assert.deepEqual([short.fast, short.fastError], [0, undefined]);
  });

  it('is none of silence, and is found where the other reads the other way round', () => {
    const a = signal(acts, 200, 20);
    const none = { late: 0, fast: 0 };
    assert.equal(
      fineLine(
        a,
        signal(() => 1, 200, 20),
        none,
        1,
      ),
      undefined,
    );
    const inverted =
      fineLine(
        a,
        signal((t) => -acts(t), 200, 20),
        none,
        -1,
      ) ?? assert.fail('nothing found');
    assert.ok(Math.abs(inverted.late) < 1e-5);
  });

  it('leaves out what lies far from it, as where one of them was knocked', () => {
    const knocked = (t: number): number => (t > 12 && t < 14.5 ? acts(t - 0.008) : acts(t));
    const found = fineLine(signal(acts, 200, 40), signal(knocked, 200, 40), { late: 0, fast: 0 }, 1);
    assert.ok(found !== undefined && Math.abs(found.late) < 3e-5 && Math.abs(found.fast) < 2e-6, JSON.stringify(found));
  });

  it('has the errors of a line by least squares through stretches that lie off it', () => {
    // Noise enough for all to weigh nearly alike, though some are whole steps off.
    const { gaussian: hiss } = random(7);
    // Twelve stretches of 3 s, by turns 1 ms before the line and behind it.
    const off = 1e-3;
    const swaying = (t: number): number => acts(t + (Math.floor(t / 3) % 2 === 0 ? off : -off)) + 0.7 * hiss();
    const found = fineLine(signal(acts, 200, 36), signal(swaying, 200, 38, -1), { late: 0, fast: 0 }, 1);
    assert.equal(found?.stretches, 12);
    const near = (value: number | undefined, wanted: number): void =>
      assert.ok(Math.abs((value ?? 0) / wanted - 1) < 0.08, `${value}, not ${wanted}`);
    // With 10 degrees of freedom, about a mean time of 18 s.
    const deviation = off * Math.sqrt(12 / 10);
    const squares = 12 * 3 ** 2 * ((12 ** 2 - 1) / 12);
    near(found.scatter, deviation);
    near(found.fastError, deviation / Math.sqrt(squares));
    near(found.lateError, deviation * Math.sqrt(1 / 12 + 18 ** 2 / squares));
    assert.ok(Math.abs(Math.abs(found.farthest.by) / off - 1) < 0.3, `${found.farthest.by}`);
  });
});

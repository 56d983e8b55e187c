import { strict as assert } from 'node:assert';
import { movingSteps, unevenness } from '../../../src/readers/clock/unevenness.ts';

const near = (found: number, wanted: number): void =>
  assert.ok(Math.abs(found - wanted) < 1e-9, `${found} for ${wanted}`);

/** Stamps with these steps, again and again. */
function stampsOf(steps: readonly number[], count: number): Float64Array {
  const t = new Float64Array(count);
  for (let i = 1; i < count; i++) t[i] = t[i - 1] + steps[(i - 1) % steps.length];
  return t;
}
const whole = (t: Float64Array): { from: number; to: number }[] => [{ from: 0, to: t.length }];

describe('the unevenness of steps', () => {
  it('is their standard deviation over their mean', () => {
    const t = stampsOf([0.9, 1.1], 101);
    near(unevenness(t, whole(t), 0, false).jitter, 0.1);
    const skewed = stampsOf([1, 1, 1, 2], 101);
    near(unevenness(skewed, whole(skewed), 0, false).jitter, Math.sqrt(3) / 4 / 1.25);
  });

  it('is that of every span together, without what lies between them', () => {
    const t = stampsOf([0.9, 1.1], 101);
    const spans = [
      { from: 0, to: 1 },
      { from: 10, to: 31 },
      { from: 40, to: 41 },
      { from: 60, to: 81 },
    ];
    near(unevenness(t, spans, 0, false).jitter, 0.1);
  });

  it('has a sixth of the squared quantum taken out where rounding does not explain all', () => {
    const t = stampsOf([0.5, 1.5], 101);
    near(unevenness(t, whole(t), 0.6, false).jitter, Math.sqrt(0.25 - 0.6 ** 2 / 6));
    // No more than there is.
    const small = stampsOf([0.9, 1.1, 1.3], 100);
    near(unevenness(small, whole(small), 0.7, false).jitter, 0);
  });

  it('is none where every step is one of the two multiples of the quantum around the mean', () => {
    const t = stampsOf([2, 3, 2, 3, 3], 501).map((value) => value / 1000);
    assert.deepEqual(unevenness(t, whole(t), 1e-3, false), { jitter: 0, rounded: true });
    const exact = stampsOf([2], 501).map((value) => value / 1000);
    assert.deepEqual(unevenness(exact, whole(exact), 1e-3, false), { jitter: 0, rounded: false });
    const other = stampsOf([2, 3, 2, 3, 5], 501).map((value) => value / 1000);
    assert.ok(unevenness(other, whole(other), 1e-3, false).jitter > 0.3);
  });

  it('is told at once where no step is far from the mean, as all steps would tell it', () => {
    // Steps this far apart in units of 1 us around the mean: just nearer than what is noted, and just farther.
    for (const [apart, rounded] of [
      [0.98, false],
      [1.02, true],
    ] as const) {
      const t = stampsOf([100 - apart, 100 + apart], 501).map((value) => value * 1e-6);
      assert.deepEqual(unevenness(t, whole(t), 3e-6, false), { jitter: 0, rounded }, String(apart));
    }
    const changing = stampsOf(
      Array.from({ length: 1000 }, (_, i) => (i < 500 ? 100 : 100.9)),
      1001,
    ).map((value) => value * 1e-6);
    assert.deepEqual(unevenness(changing, whole(changing), 1e-6, false), { jitter: 0, rounded: false });
  });

  it('is more than rounding where the rate itself changes', () => {
    const steps = Array.from({ length: 1000 }, (_, i) => (i < 500 ? 2 : 3));
    const t = stampsOf(steps, 1001).map((value) => value / 1000);
    const { jitter, rounded } = unevenness(t, whole(t), 1e-3, false);
    assert.ok(jitter > 0.1 && !rounded, String(jitter));
  });

  it('leaves out a stamp that runs back, with the steps beside it', () => {
    const t = stampsOf([1], 1001);
    t[500] -= 2.5;
    near(unevenness(t, whole(t), 0, false).jitter, 0);
    const ahead = stampsOf([1], 1001);
    ahead[500] += 0.5;
    near(unevenness(ahead, whole(ahead), 0, false).jitter, Math.sqrt(0.5 / 1000));
  });

  it('leaves out where the clock stood still, if it did', () => {
    const t = stampsOf([1], 1001).map((value, i) => value - Math.max(0, Math.min(100, i - 300)));
    near(unevenness(t, whole(t), 0, true).jitter, 0);
    assert.ok(unevenness(t, whole(t), 0, false).jitter > 0.3);
  });

  it('is none of a clock that never moved', () => {
    const t = new Float64Array(10);
    assert.deepEqual(unevenness(t, whole(t), 0, false), { jitter: 0, rounded: false });
    assert.deepEqual(unevenness(t, [{ from: 3, to: 4 }], 0, false), { jitter: 0, rounded: false });
  });
});

describe('the steps of a clock that moved', () => {
  it('are counted from one row to another', () => {
    const t = Float64Array.of(0, 1, 1, 2, 2, 2, 3);
    assert.deepEqual(
      [movingSteps(t, 0, 6), movingSteps(t, 1, 5), movingSteps(t, 3, 5), movingSteps(t, 2, 2)],
      [3, 1, 0, 0],
    );
  });
});

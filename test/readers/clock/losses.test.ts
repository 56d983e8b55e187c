import { strict as assert } from 'node:assert';
import { leastRate, neighbourStep, rateAcross } from '../../../src/readers/clock/losses.ts';
import { stepShape } from '../../../src/readers/clock/steps.ts';
import { settings } from '../../../src/readers/settings.ts';

const stampsOf = (steps: readonly number[]): Float64Array => {
  let at = 0;
  return Float64Array.from([0, ...steps.map((step) => (at += step))]);
};
const usual = (steps: readonly number[], quantum = 0.01): number | undefined => {
  const t = stampsOf(steps);
  return neighbourStep(t, stepShape(t), quantum);
};
/** A hundred steps of which the last few are given. */
const mixed = (...long: readonly number[]): number[] => [
  ...Array.from({ length: 100 - long.length }, (_, i) => (i % 2 === 0 ? 0.98 : 1.02)),
  ...long,
];

describe('the step between neighbours', () => {
  it('is the mean of the short ones, where the long ones gather around twice as much', () => {
    assert.ok(Math.abs(usual(mixed(2, 2, 2.1, 1.9))! - 1) < 1e-12);
    // Steps of less than half, and of more than one and a half, are none of neighbours.
    const step = usual(mixed(2, 2, 2, 2, 0.4, 3.1, 1.4))!;
    assert.ok(Math.abs(step - (93 + 1.4) / 94) < 1e-2, String(step));
  });

  it('is found again from its own mean', () => {
    // The median is 0.75; what is within a half and one and a half of it has another mean, and so on.
    const steps = [...Array.from({ length: 60 }, () => 0.75), ...Array.from({ length: 40 }, () => 1.1), 2, 2, 2, 2];
    const step = usual(steps)!;
    assert.ok(Math.abs(step - (45 + 44) / 100) < 1e-9, String(step));
  });

  it('is unknown where long steps are few, or lie right beyond the usual ones as well', () => {
    assert.equal(usual(mixed(2)), undefined);
    assert.ok(usual(mixed(2, 2)) !== undefined);
    assert.equal(usual(mixed(2, 2, 2, 1.6)), undefined);
    assert.ok(usual(mixed(2, 2, 2, 2, 1.6)) !== undefined);
    assert.equal(usual(mixed(3, 3, 3, 3)), undefined);
    assert.equal(usual(mixed(2.3, 2.3, 2.3)), undefined);
  });

  it('is unknown where the stamps are too coarse', () => {
    assert.ok(usual(mixed(2, 2, 2, 2), 0.24) !== undefined);
    assert.equal(usual(mixed(2, 2, 2, 2), 0.26), undefined);
  });
});

describe('the rate across gaps', () => {
  const spans = [
    { from: 0, to: 3 },
    { from: 3, to: 5 },
    { from: 5, to: 7 },
  ];

  it('counts on where a gap is a whole number of steps long', () => {
    // At 2 Hz and a little; gaps of 3 and of 2 steps.
    const t = Float64Array.of(0, 0.5, 1, 2.6, 3.1, 4.2, 4.7);
    assert.equal(rateAcross(t, spans, [false, true, true], 2), 9 / 4.7);
    // A clock that was set anew is not counted across, whatever it shows.
    assert.equal(rateAcross(t, spans, [false, false, true], 2), 6 / (1 + 0.5 + 0.5 + (4.2 - 3.1)));
    assert.equal(rateAcross(t, spans, [true, false, false], 2), 4 / 2);
  });

  it('begins anew where a gap fits no whole number or is too long to be sure', () => {
    const odd = Float64Array.of(0, 0.5, 1, 2.63, 3.13, 4.13, 4.63);
    assert.equal(rateAcross(odd, spans, [false, true, true], 2), 6 / (1 + 0.5 + 1 + 0.5));
    const { most } = settings.across;
    const far = (steps: number): Float64Array => Float64Array.of(0, 1, 2, 2 + steps, 3 + steps, 4 + steps, 5 + steps);
    const [within, beyond] = [far(most), far(most + 1)];
    // Halving the rate that is assumed doubles nothing: only the counts do.
    assert.equal(rateAcross(within, spans, [false, true, true], 1), (5 + most) / (5 + most));
    within[6] += 0.1;
    beyond[6] += 0.1;
    assert.equal(rateAcross(within, spans, [false, true, true], 1), (5 + most) / (5.1 + most));
    assert.ok(Math.abs(rateAcross(beyond, spans, [false, true, true], 1) - 5 / 5.1) < 1e-12);
  });

  it('keeps the rate of the spans where these hold no step', () => {
    const alone = [0, 1, 2].map((from) => ({ from, to: from + 1 }));
    assert.equal(rateAcross(Float64Array.of(0, 7.3, 15), alone, [false, false, false], 3), 3);
    assert.equal(rateAcross(Float64Array.of(5, 5), [{ from: 0, to: 2 }], [false], 3), 3);
  });
});

describe('the least rate', () => {
  it('is that of the rows that stand closest together, less one step of the stamps', () => {
    const t = Float64Array.from({ length: 200 }, (_, i) => i + (i >= 100 ? 50 : 0));
    assert.equal(leastRate(t, 1), 32 / 33);
    assert.equal(leastRate(t, 0.5), 32 / 32.5);
    assert.equal(leastRate(t.subarray(0, 64), 1), 16 / 17);
    assert.equal(leastRate(t.subarray(0, 63), 1), 0);
  });

  it('takes the best of all lengths', () => {
    // Sixteen rows in a rush, and the rest far apart.
    const t = Float64Array.from({ length: 400 }, (_, i) => (i < 200 ? i : i < 217 ? 200 + (i - 200) / 10 : i - 15));
    assert.ok(Math.abs(leastRate(t, 0.4) - 16 / (1.6 + 0.4)) < 1e-9);
  });

  it('passes over parts that run back', () => {
    const t = Float64Array.from({ length: 200 }, (_, i) => (i < 100 ? i : i - 90));
    assert.equal(leastRate(t, 1), 32 / 33);
  });
});

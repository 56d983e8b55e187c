import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { extremeOf, isWithinTops, logChance, usualHold, type Extreme } from '../../../src/readers/checks/plateaus.ts';
import type { CheckedRun } from '../../../src/readers/checks/checked.ts';

const of = (...values: number[]): Float64Array => Float64Array.from(values);
const whole = (samples: Float64Array): { stretches: { from: number; to: number; start: number }[] } => ({
  stretches: [{ from: 0, to: samples.length, start: 0 }],
});
const near = (a: number, b: number): void => assert.ok(Math.abs(a - b) < 1e-9, `${a} is not ${b}`);

/** How many tops there are: so many lie within them, and no more. */
function topsOf(run: Pick<CheckedRun, 'stretches'>, samples: Float64Array, side: 1 | -1): number {
  let tops = 0;
  while (isWithinTops(tops + 1, 1, run, samples, side)) tops++;
  return tops;
}

describe('how a channel stands at its extreme', () => {
  const samples = of(0, 5, 9, 9, 4, 7, 8, 6, 9, 0, 9);
  const extreme = (side: 1 | -1, step = 1, values = samples): Extreme =>
    extremeOf(whole(values), values, side, { step, ends: [Math.min(...values), Math.max(...values)] });

  it('is told by the plateaus there, and how far the signal falls from each', () => {
    const { value, plateaus, samples: count, inside } = extreme(1);
    assert.equal(value, 9);
    assert.deepEqual(plateaus, [
      { from: 2, to: 4, drop: 4.5 },
      { from: 8, to: 9, drop: 6 },
      { from: 10, to: 11, drop: 9 },
    ]);
    assert.equal(count, 4);
    // 7, 8 and 6 are within three steps and a half.
    assert.equal(inside, 3);
  });

  it('is told of the other side alike', () => {
    assert.deepEqual(extreme(-1).plateaus, [
      { from: 0, to: 1, drop: 5 },
      { from: 9, to: 10, drop: 9 },
    ]);
    assert.equal(extreme(-1).value, 0);
    assert.equal(extreme(-1).inside, 0);
    assert.deepEqual(extreme(-1, 1, of(9, 3, 0, 2, 2, 1, 4, 9)).inside, 3);
  });

  it('counts a reading inside once, however long it is held, and no farther than three steps and a half', () => {
    assert.equal(extreme(1, 1, of(0, 9, 8, 8, 8, 6, 5.4, 0)).inside, 2);
    assert.equal(extreme(1, 1, of(0, 9, 8, 8, 8, 5.6, 5.4, 0)).inside, 2);
    assert.equal(extreme(1, 2, of(0, 9, 8, 8, 8, 5.6, 5.4, 2.1, 1.9, 0)).inside, 4);
  });

  it('takes readings that differ by the last bits of a conversion for one', () => {
    const bits = of(0, 9, 9 - 1e-12, 4, 9, 0);
    assert.deepEqual(
      extreme(1, 1, bits).plateaus.map(({ from, to }) => [from, to]),
      [
        [1, 2],
        [2, 3],
        [4, 5],
      ],
    );
    // They are found though the step is smaller than they differ.
    assert.equal(extreme(1, 1e-15, bits).plateaus.length, 3);
  });

  it('goes across no gap', () => {
    const run = {
      stretches: [
        { from: 0, to: 3, start: 0 },
        { from: 3, to: 6, start: 9 },
      ],
    };
    const { plateaus } = extremeOf(run, of(1, 4, 9, 9, 2, 0), 1, { step: 1, ends: [0, 9] });
    assert.deepEqual(plateaus, [
      { from: 2, to: 3, drop: 5 },
      { from: 3, to: 4, drop: 7 },
    ]);
  });

  it('has no fall where a stretch is nothing else', () => {
    assert.deepEqual(
      extremeOf({ stretches: [{ from: 0, to: 2, start: 0 }] }, of(9, 9, 0), 1, { step: 1, ends: [0, 9] }).plateaus,
      [{ from: 0, to: 2, drop: 0 }],
    );
  });
});

describe('the tops of a signal', () => {
  it('are readings from which it falls on either side, however long they are held', () => {
    assert.equal(topsOf(whole(of(0, 2, 1, 3, 3, 1, 1, 2)), of(0, 2, 1, 3, 3, 1, 1, 2), 1), 3);
    assert.equal(topsOf(whole(of(0, 2, 1, 3, 3, 1, 1, 2)), of(0, 2, 1, 3, 3, 1, 1, 2), -1), 3);
    assert.equal(topsOf(whole(of(5, 4, 3)), of(5, 4, 3), 1), 1);
    assert.equal(topsOf(whole(of(5, 4, 3)), of(5, 4, 3), -1), 1);
    assert.equal(topsOf(whole(of(5, 4, 4)), of(5, 4, 4), 1), 1);
    assert.equal(topsOf(whole(of(5, 5)), of(5, 5), 1), 1);
    assert.equal(topsOf({ stretches: [{ from: 0, to: 0, start: 0 }] }, of(), 1), 0);
  });

  it('are counted in each stretch by itself', () => {
    const stretches = [
      { from: 0, to: 3, start: 0 },
      { from: 3, to: 5, start: 5 },
    ];
    assert.equal(topsOf({ stretches }, of(0, 1, 2, 3, 4), 1), 2);
  });
});

describe('the chance of an extreme to look as it does', () => {
  const lone = (count: number): Extreme['plateaus'] =>
    Array.from({ length: count }, (_, i) => ({ from: 10 * i, to: 10 * i + 1, drop: 1 }));

  it('is certain where visits to it are no more than to the levels inside', () => {
    assert.equal(logChance({ value: 1, plateaus: lone(1), samples: 1, inside: 0 }, 1, 1), 0);
    assert.equal(logChance({ value: 1, plateaus: lone(11), samples: 11, inside: 10 }, 1, 1), 0);
  });

  it('is that of a binomial tail by Chernoff where they are more', () => {
    // n visits of which k are at the extreme: exp(-n D(k/n || 1/2)).
    const bound = (k: number, n: number): number => {
      const share = k / n;
      const rest = 1 - share;
      return -n * (share * Math.log(2 * share) + (rest === 0 ? 0 : rest * Math.log(2 * rest)));
    };
    for (const [k, inside] of [
      [10, 0],
      [10, 9],
      [12, 3],
      [40, 11],
    ])
      near(logChance({ value: 1, plateaus: lone(k + 1), samples: k + 1, inside }, 1, 1), bound(k, k + inside));
  });

  it('falls with the length of a plateau and the steepness at its ends, up to five samples', () => {
    const plateau = (samples: number, drop: number, usual = 1): number =>
      logChance({ value: 1, plateaus: [{ from: 3, to: 3 + samples, drop }], samples, inside: 5 }, 0.5, usual);
    near(plateau(3, 10), 2 * Math.log(1 / 10));
    near(plateau(5, 10), 4 * Math.log(1 / 10));
    near(plateau(9, 10), 4 * Math.log(1 / 10));
    assert.equal(plateau(1, 10), 0);
    // A rounded top rises over the plateau by drop (n - 1)^2 / (4 n), within two steps.
    assert.equal(plateau(2, 7.99), 0);
    near(plateau(2, 8.01), Math.log(1 / 8.01));
    assert.equal(plateau(3, 2.99), 0);
    near(plateau(3, 3.01), 2 * Math.log(1 / 3.01));
    // Readings that are held anyway count once.
    assert.equal(plateau(3, 10, 2), 0);
    near(plateau(6, 10, 2), 2 * Math.log(1 / 10));
    near(plateau(7, 10, 2), 2 * Math.log(1 / 10));
  });

  it('is the sum of both over all plateaus', () => {
    const plateaus = [...lone(4), { from: 90, to: 93, drop: 20 }, { from: 95, to: 97, drop: 30 }];
    const both = logChance({ value: 1, plateaus, samples: 9, inside: 0 }, 1, 1);
    near(both, -5 * Math.log(2) + 2 * Math.log(2 / 20) + Math.log(2 / 30));
  });
});

describe('how long a reading is held', () => {
  it('is what 99 of 100 do not last beyond, those at the extremes apart', () => {
    assert.equal(usualHold(of(1, 2, 3, 4), []), 1);
    assert.equal(usualHold(of(1, 1, 2, 2, 3, 3), []), 2);
    assert.equal(usualHold(of(9, 9, 9, 9, 1, 2, 3), [9]), 1);
    assert.equal(usualHold(of(), []), 1);
    assert.equal(usualHold(of(9, 9, 9), [9]), 1);
    const long = (count: number): Float64Array => {
      const values: number[] = [];
      for (let i = 0; i < 101; i++) values.push(...Array.from({ length: i < count ? 3 : 1 }, () => i));
      return Float64Array.from(values);
    };
    assert.equal(usualHold(long(1), []), 1);
    assert.equal(usualHold(long(2), []), 3);
  });

  it('is never longer than the longest, and at least 1', () => {
    const law = fc.property(fc.array(fc.integer({ min: 0, max: 3 }), { maxLength: 60 }), (list) => {
      const hold = usualHold(Float64Array.from(list), []);
      let longest = 1;
      for (let i = 0, from = 0; i < list.length; i++) {
        if (list[i] !== list[from]) from = i;
        longest = Math.max(longest, i - from + 1);
      }
      assert.ok(hold >= 1 && hold <= longest);
    });
    fc.assert(law, { numRuns: 100 });
  });
});

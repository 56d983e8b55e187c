import { strict as assert } from 'node:assert';
import { rushAfterGaps } from '../../../src/readers/clock/rush.ts';

type Clock = Parameters<typeof rushAfterGaps>[1];

/** At 1 Hz in two stretches: four even rows, and what follows a gap of seven samples. */
const before = [0, 1, 2, 3];
const rushIn = (after: readonly number[], change: Partial<Clock> = {}): number[] | undefined => {
  const t = Float64Array.from([...before, ...after]);
  const stretches = [
    { from: 0, to: 4, start: 0 },
    { from: 4, to: t.length, start: 10 },
  ];
  const mask = rushAfterGaps(t, { stretches, rate: 1, quantum: 0.25, delivery: 'even', ...change });
  return mask && [...mask.keys()].filter((row) => mask[row] === 1);
};
const rush = [10, 10.25, 10.5, 10.75, 12, 13, 14];

describe('rows in a rush after a gap', () => {
  it('are all from the first after it to the last but one of those closer than half a step', () => {
    assert.deepEqual(rushIn(rush), [4, 5, 6]);
    assert.deepEqual(rushIn([10, 10.25, 10.5, 10.75, 11, 12]), [4, 5, 6, 7]);
  });

  it('may last to the end of the stretch', () => assert.deepEqual(rushIn(rush.slice(0, 4)), [4, 5, 6]));

  it('are three steps at least, each of less than half the usual', () => {
    assert.equal(rushIn([10, 10.25, 10.5, 12, 13]), undefined);
    assert.equal(rushIn([10, 10.5, 11, 11.5, 12, 13]), undefined);
  });

  it('are looked for after gaps only', () => {
    const stretches = [{ from: 0, to: 11, start: 0 }];
    assert.equal(rushIn(rush, { stretches }), undefined);
    const t = Float64Array.from([0, 0.25, 0.5, 0.75, 2, 3, 10, 11, 12, 13]);
    const two = [
      { from: 0, to: 6, start: 0 },
      { from: 6, to: 10, start: 10 },
    ];
    assert.equal(rushAfterGaps(t, { stretches: two, rate: 1, quantum: 0.25, delivery: 'even' }), undefined);
  });

  it('are not told where stamps are rounded to more than half a step, or are no times of samples', () => {
    assert.deepEqual(rushIn(rush, { quantum: 0.5 }), [4, 5, 6]);
    assert.equal(rushIn(rush, { quantum: 0.51 }), undefined);
    assert.equal(rushIn(rush, { delivery: 'bursts' }), undefined);
    assert.equal(rushIn(rush, { delivery: 'coarse' }), undefined);
    assert.deepEqual(rushIn(rush, { delivery: 'rounded' }), [4, 5, 6]);
  });
});

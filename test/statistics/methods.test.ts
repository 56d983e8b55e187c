import { strict as assert } from 'node:assert';
import { chooseMethod, type ChosenMethod, type TestLayout } from '../../src/statistics/methods.ts';
import { interleavedOrder, placesOf } from '../../src/statistics/order.ts';

const interleaved = (runs: number): TestLayout => ({
  runsA: runs,
  runsB: runs,
  order: placesOf(interleavedOrder(runs)),
});
const inOrder = (letters: string): TestLayout => {
  const order = placesOf([...letters] as ('A' | 'B')[]);
  return { runsA: order.a.length, runsB: order.b.length, order };
};
const said = ({ method, sequence, obstacle }: ChosenMethod): unknown[] => [method, sequence, obstacle];

describe('the method of a test', () => {
  it('follows from its layout: no order, a known order of 3 to 5 and of 6 and more runs', () => {
    assert.deepEqual(said(chooseMethod({ runsA: 4, runsB: 4 })), ['welch', 'unknown', undefined]);
    for (const runs of [3, 4, 5])
      assert.deepEqual(said(chooseMethod(interleaved(runs))), ['trend', 'interleaved', undefined]);
    for (const runs of [6, 8])
      assert.deepEqual(said(chooseMethod(interleaved(runs))), ['curve', 'interleaved', undefined]);
    // The smaller side decides.
    assert.equal(chooseMethod(inOrder('BABBABBABBB')).method, 'trend');
  });

  it('compares within the pairs that the sheet names, where each holds one run of each', () => {
    const pairs = { a: ['1', '2', '3'], b: ['2', '1', '3'] };
    assert.equal(chooseMethod({ ...interleaved(3), pairs }).method, 'paired');
    const broken = chooseMethod({ ...interleaved(3), pairs: { a: ['1', '1', '3'], b: ['2', '1', '3'] } });
    assert.deepEqual(said(broken), ['trend', 'interleaved', 'pairs-incomplete']);
    assert.equal(
      chooseMethod({ ...inOrder('ABBAABB'), pairs: { a: ['1', '2', '3'], b: ['1', '2', '3', '4'] } }).obstacle,
      'unequal-counts',
    );
  });

  it('takes days apart, with or without an order within them', () => {
    const days = { a: ['1', '1', '2', '2'], b: ['1', '1', '2', '2'] };
    const weights = ({ contrast }: ChosenMethod): number[] => [...(contrast ?? assert.fail()).weights];
    const found = chooseMethod({ ...interleaved(4), days });
    assert.deepEqual(said(found), ['days', 'interleaved', undefined]);
    assert.equal(weights(found).length, 8);
    assert.equal(chooseMethod({ runsA: 4, runsB: 4, days }).method, 'days');
    // A level that is another on the second day has no part in the difference.
    const shift = [0, 0, 1, 1, 0, 0, 1, 1].reduce((sum, day, k) => sum + day * weights(found)[k], 0);
    assert.ok(Math.abs(shift) < 1e-12);
  });

  it('says when all of one side came before the other, by order or by day, and when an order leans', () => {
    assert.equal(chooseMethod(inOrder('AAABBB')).sequence, 'apart');
    assert.equal(chooseMethod(inOrder('BBBBAAAA')).sequence, 'apart');
    const leaning = chooseMethod(inOrder('AABABB'));
    assert.equal(leaning.sequence, 'leaning');
    assert.ok(Math.abs((leaning.varianceInflation ?? 0) - 1.88) < 0.005);
    const days = { a: ['mon', 'mon', 'mon'], b: ['tue', 'tue', 'tue'] };
    assert.equal(chooseMethod({ runsA: 3, runsB: 3, days }).sequence, 'other-days');
  });

  it('is the one asked for where the runs allow it, and says what is in the way where not', () => {
    assert.deepEqual(said(chooseMethod({ ...interleaved(6), asked: 'trend' })), ['trend', 'interleaved', undefined]);
    assert.deepEqual(said(chooseMethod({ ...interleaved(4), asked: 'paired' })), ['paired', 'interleaved', undefined]);
    assert.deepEqual(said(chooseMethod({ runsA: 4, runsB: 4, asked: 'trend' })), ['welch', 'unknown', 'no-order']);
    const same = { runsA: 3, runsB: 3, order: { a: [1, 2, 3], b: [3, 4, 5] }, asked: 'trend' } as const;
    assert.deepEqual(said(chooseMethod(same)), ['welch', 'unknown', 'same-place']);
    assert.deepEqual(said(chooseMethod({ ...inOrder('ABBAABB'), asked: 'paired' })), [
      'trend',
      'interleaved',
      'unequal-counts',
    ]);
  });
});

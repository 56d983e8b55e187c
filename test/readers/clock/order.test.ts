import { strict as assert } from 'node:assert';
import { clockOf } from '../../../src/readers/clock/clock.ts';
import { disorderOf } from '../../../src/readers/clock/order.ts';
import { findingOf, recordingOf, refusalOf, rows } from '../memory.ts';

/** What is in doubt of rows at 100 Hz in some order. */
function disorder(order: readonly number[], sentAgain = 0): unknown {
  const t = Float64Array.from(order, (i) => i / 100);
  return disorderOf(t, clockOf(t, 0.001)!, sentAgain);
}
const counted = (from: number, to: number): number[] => Array.from({ length: to - from }, (_, i) => from + i);

/** A file of such rows, with readings that differ from row to row. */
const file = (order: readonly number[], stamp = (i: number): number => i / 100): string =>
  'time (s),x (g)\n' + rows(order.length, (i) => [stamp(order[i]).toFixed(3), Math.sin(7 * i).toFixed(4)]);

describe('the order of rows', () => {
  it('is in no doubt where they run forward, a clock begins anew, or one row stands out of place', () => {
    for (const order of [
      counted(0, 400),
      [...counted(0, 400), ...counted(0, 400)],
      [...counted(0, 100), 101, 100, ...counted(102, 400)],
    ])
      assert.equal(disorder(order), undefined);
  });

  it('is in doubt where rows lie in a gap before them', () => {
    const swapped = [...counted(0, 100), ...counted(120, 140), ...counted(100, 120), ...counted(140, 400)];
    assert.deepEqual(disorder(swapped), { why: 'late', late: 20 });
    // Sorted as text, ten comes before two.
    const sorted = counted(0, 2500).sort((a, b) => (String(a / 100) < String(b / 100) ? -1 : 1));
    assert.equal((disorder(sorted) as { why: string }).why, 'late');
  });

  it('is in doubt where many come late under stamps that have been before', () => {
    const twice = counted(0, 20).flatMap((k) => [
      ...counted(20 * k, 20 * k + 20),
      ...(k % 3 === 2 ? counted(20 * k, 20 * k + 20) : []),
    ]);
    // Of each buffer of 20 that comes again, the last row comes with the stamp that the first time ended with.
    assert.deepEqual(disorder(twice), { why: 'differ', again: 6 * 19 });
  });

  it('is in doubt by half a step, and by two steps and a half where many rows share a stamp', () => {
    const twice = counted(0, 1000).flatMap((i) => (i < 2 ? [i] : [i, i - 2]));
    assert.deepEqual(disorder(twice), { why: 'differ', again: 998 });
    // A stamp that stands still once is none that is shared.
    assert.deepEqual(disorder([0, 0, ...twice.slice(1)]), { why: 'differ', again: 998 });
    assert.equal(disorder(twice.flatMap((i) => (i % 5 === 0 ? [i, i] : [i]))), undefined);
  });

  it('is in doubt where copies were left out and a stamp still runs back by less than a new beginning', () => {
    const one = [...counted(0, 100), 101, 100, ...counted(102, 400)];
    assert.deepEqual(disorder(one, 5), { why: 'behind', again: 5, behind: 1 });
    assert.equal(disorder([...counted(0, 400), ...counted(0, 400)], 5), undefined);
  });
});

describe('a file in no order', () => {
  it('is refused where buffers change places or come again with other readings, row by row too', async () => {
    const swapped = counted(0, 50).flatMap((k) => [
      ...counted(40 * k + 20, 40 * k + 40),
      ...counted(40 * k, 40 * k + 20),
    ]);
    const late = await refusalOf(file(swapped));
    assert.equal(late.code, 'rows-disordered');
    assert.match(late.message, /980 rows belong into gaps before them/);
    const twice = counted(0, 1000).flatMap((i) => (i < 32 ? [i] : [i, i - 32]));
    const differ = await refusalOf(file(twice));
    assert.equal(differ.code, 'rows-disordered');
    assert.match(differ.message, /968 rows come late under stamps that have been before, with other readings/);
  });

  it('is read where each row comes once more among the next buffer, and where stamps are shared', async () => {
    const twice = counted(0, 1000).flatMap((i) => (i < 32 ? [i] : [i, i - 32]));
    const reading = (i: number): string => Math.sin(7 * i).toFixed(4);
    const text = (stamp: (i: number) => string): string =>
      'time (s),x (g)\n' + rows(twice.length, (i) => [stamp(twice[i]), reading(twice[i])]);
    const fine = await recordingOf(text((i) => (i / 100).toFixed(3)));
    assert.deepEqual([fine.clock.rate, fine.channels[0].samples.length], [100, 1000]);
    assert.equal(findingOf(fine, 'rows-sent-again')?.value, 968);
    const shared = await recordingOf(text((i) => (Math.floor(i / 4) / 100).toFixed(2)));
    assert.equal(shared.channels[0].samples.length, 1000);
    assert.ok(Math.abs(shared.clock.rate - 400) < 1, `${shared.clock.rate} Hz`);
  });

  it('is read with its true rate where the clock is set back a little, or neighbours change places', async () => {
    const back = await recordingOf(file(counted(0, 3000), (i) => i / 100 - (i < 700 ? 0 : i < 2500 ? 0.303 : 0.606)));
    assert.equal(back.clock.rate, 100);
    assert.equal(findingOf(back, 'clock-reset')?.value, 2);
    const pairs = counted(0, 3000).map((i) => (i % 170 === 50 ? i + 1 : i % 170 === 51 ? i - 1 : i));
    const kept = await recordingOf(file(pairs));
    assert.ok(Math.abs(kept.clock.rate - 100) < 0.01, `${kept.clock.rate} Hz`);
    assert.equal(kept.clock.stretches.length, 1);
  });
});

import { strict as assert } from 'node:assert';
import { withSlips } from '../../../src/readers/clock/slips.ts';
import { findingOf, recordingOf } from '../memory.ts';

/** Rows at a rate in Hz, without those of the `lost` numbers, stamped in whole ms. */
const coarse = (rate: number, count: number, lost: readonly number[]): string =>
  `t (s),z (g)\n${Array.from({ length: count }, (_, i) => i)
    .filter((i) => !lost.includes(i))
    .map((i) => `${(Math.floor(1000 * (5 + (i + 0.3) / rate)) / 1000).toFixed(3)},${Math.sin(1.7 * i).toFixed(4)}\n`)
    .join('')}`;

describe('a sample that is lost where stamps are as coarse as the step', () => {
  for (const rate of [800, 937.3, 1200, 3200])
    it(`is found by what it does to all later stamps, at ${rate} Hz`, async () => {
      const whole = await recordingOf(coarse(rate, 3000, []));
      assert.equal(whole.clock.stretches.length, 1);
      const { clock, findings } = await recordingOf(coarse(rate, 3000, [1000, 1503]));
      assert.equal(clock.stretches.length, 3);
      const gap = findings.find(({ code }) => code === 'gap');
      assert.deepEqual(gap?.facts && 'missing' in gap.facts ? gap.facts.missing : undefined, 2);
      const [, { from, start }] = clock.stretches;
      assert.ok(Math.abs(from - 1000) <= 2, `the loss at row ${from}`);
      assert.ok(Math.abs(start - (from + 1) / clock.rate) < 1e-9);
      assert.ok(Math.abs(clock.rate / rate - 1) < 5e-4, `${clock.rate} Hz`);
    });

  it('is a doubt that is told where the rounding of another rate would look the same', async () => {
    const recording = await recordingOf(coarse(1000, 3000, [1000]));
    assert.equal(recording.clock.stretches.length, 1);
    assert.match(
      findingOf(recording, 'rounded-stamps')!.message,
      /one that is lost may not show, and makes the rate 0\.0333 % too low\.$/,
    );
    const shared = findingOf(await recordingOf(coarse(2000, 3000, [1000])), 'coarse-stamps')!;
    assert.match(shared.message, /may not show, and makes the rate 0\.0333 % too low\.$/);
  });

  it('is no doubt where each loss shows', async () => {
    const recording = await recordingOf(coarse(400, 3000, []));
    assert.match(findingOf(recording, 'rounded-stamps')!.message, /which explains all of their unevenness\.$/);
  });

  it('is warned of where as many that are not found would make the rate wrong', async () => {
    const recording = await recordingOf(coarse(1810.08, 1500, [300, 620, 1100]));
    assert.equal(findingOf(recording, 'rate-uncertain')?.severity, 'warning');
  });
});

describe('losses within coarse stamps', () => {
  const rate = 937.3;
  /** Stamps in whole ms of so many samples but some. */
  const stampsWithout = (count: number, ...lost: readonly number[]): Float64Array =>
    Float64Array.from(
      Array.from({ length: count }, (_, i) => i).filter((i) => !lost.includes(i)),
      (i) => Math.floor((1000 * (i + 0.3)) / rate) / 1000,
    );
  const found = (t: Float64Array, breaks: Parameters<typeof withSlips>[1] = []) =>
    withSlips(t, breaks, 0.001, () => rate);

  it('leave out as many samples as the stamps rise by, each where it is', () => {
    const one = found(stampsWithout(2000, 300, 900, 901, 1500, 1501, 1502));
    assert.deepEqual(
      one.map(({ missing, reset }) => [missing, reset]),
      [
        [1, false],
        [2, false],
        [3, false],
      ],
    );
    [300, 899, 1497].forEach((row, k) => assert.ok(Math.abs(one[k].row - row) <= 2, `${one[k].row} is not ${row}`));
    assert.deepEqual(found(stampsWithout(2000)), []);
  });

  it('are put among the breaks that are known, and are found on either side of one', () => {
    const known = { row: 700, reset: true };
    const all = found(stampsWithout(2000, 300, 1500), [known]);
    assert.deepEqual(
      all.map(({ missing }) => missing),
      [1, undefined, 1],
    );
    assert.ok(Math.abs(all[0].row - 300) <= 2 && all[1] === known && Math.abs(all[2].row - 1499) <= 2);
  });

  it('show in 24 rows before and as many behind, and in no fewer', () => {
    assert.equal(found(stampsWithout(70, 35)).length, 1);
    assert.deepEqual(found(stampsWithout(47, 24)), []);
  });

  it('are found wherever in a long recording they lie, one and several together', () => {
    for (let lost = 100; lost < 2900; lost += 61) {
      const rows = [lost, ...(lost % 2 === 0 ? [lost + 70] : [])];
      const all = found(stampsWithout(3000, ...rows));
      assert.deepEqual(
        all.map(({ missing }) => missing),
        rows.map(() => 1),
        `${rows.join(' ')}`,
      );
      all.forEach(({ row }, k) => assert.ok(Math.abs(row + k - rows[k]) <= 2, `${row} is not ${rows[k]}`));
    }
  });
});

import { strict as assert } from 'node:assert';
import { errorOf, near, resultOf, valueOf } from '../notebook.ts';
import { loadPads, pads } from '../pads.ts';

describe('repeats', () => {
  it('shows with so many runs what the published table says', async () => {
    // Smallest reduction with 80 % power, two-sided 5 %, spread 5 %: 24.6 14.2 11.2 9.6 8.6 - 7.3 - 6.4 - 5.8.
    const { table } = await valueOf('repeats', 'repeats detect 10 % spread 5 %', {});
    const shown = new Map(table.map(({ runs, smallestPercent }) => [runs, smallestPercent.toFixed(1)]));
    for (const [runs, percent] of [
      [2, '24.6'],
      [3, '14.2'],
      [4, '11.2'],
      [5, '9.6'],
      [6, '8.6'],
      [8, '7.3'],
      [10, '6.4'],
      [12, '5.8'],
    ] as const)
      assert.equal(shown.get(runs), percent);
  });

  it('needs the fewest runs whose row of the table reaches the reduction', async () => {
    for (const [detect, runs] of [
      [11.3, 4],
      [11.1, 5],
      [5.9, 12],
      [5, 16],
    ] as const) {
      const value = await valueOf('repeats', `repeats detect ${detect} % spread 5 %`, {});
      assert.equal(value.runs, runs, `${detect} %`);
      assert.ok((value.reached ?? 0) >= 0.8);
      const row = value.table.find((one) => one.runs === runs);
      assert.ok(row !== undefined && row.smallestPercent <= detect);
    }
  });

  it('takes its spread from a comparison', async () => {
    const study = pads({ a: [0.3, 0.31, 0.29], b: [0.2, 0.21, 0.19] });
    const { value } = await resultOf(
      `${loadPads}c = compare foam with gel over 10..30 Hz\nrepeats detect 5 % spread c.spread`,
      study,
    );
    assert.ok(value?.kind === 'repeats');
    const variance = (levels: number[]): number => {
      const ln = levels.map(Math.log);
      const mean = ln.reduce((sum, one) => sum + one, 0) / 3;
      return ln.reduce((sum, one) => sum + (one - mean) ** 2, 0) / 2;
    };
    near(value.spread, Math.sqrt((variance([0.3, 0.31, 0.29]) + variance([0.2, 0.21, 0.19])) / 2), 1e-5);
  });

  it('says when no number of runs would do', async () => {
    const value = await valueOf('repeats', 'repeats detect 0.01 % spread 50 %', {});
    assert.equal(value.runs, undefined);
    assert.equal(value.table.length, 11);
  });

  it('refuses what is no question', async () => {
    assert.match((await errorOf('repeats detect 5 %')).message, /needs the spread from run to run/);
    assert.match((await errorOf('repeats spread 5 %')).message, /needs the reduction to detect/);
    assert.match((await errorOf('repeats detect 0 % spread 4 %')).message, /`detect` .* above 0 %/);
    assert.match((await errorOf('repeats detect 5 % spread 0 %')).message, /`spread` .* above 0 %/);
  });
});

import { strict as assert } from 'node:assert';
import { errorOf, near, resultOf, valueOf } from '../notebook.ts';
import { loadPads, pads } from '../pads.ts';

describe('repeats', () => {
  it('needs the fewest runs whose row of the table reaches the reduction', async () => {
    for (const [detect, runs] of [
      [30, 3],
      [13, 4],
      [6, 12],
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

  it('shows that two are the same within a margin', async () => {
    const value = await valueOf('repeats', 'repeats equivalent 5 % spread 3 %', {});
    const [fewer, enough] = [-1, 0].map((less) => value.table.find(({ runs }) => runs === (value.runs ?? 0) + less));
    assert.ok(fewer && enough && enough.smallestPercent <= 5 && fewer.smallestPercent > 5);
    assert.match(
      (await errorOf('repeats detect 5 % equivalent 5 % spread 3 %')).message,
      /one of detect and equivalent/,
    );
  });

  it('says when no number of runs would do', async () => {
    const value = await valueOf('repeats', 'repeats detect 0.01 % spread 50 %', {});
    assert.equal(value.runs, undefined);
    assert.equal(value.table.length, 10);
  });

  it('refuses what is no question', async () => {
    assert.match((await errorOf('repeats detect 5 %')).message, /needs the spread from run to run/);
    assert.match((await errorOf('repeats spread 5 %')).message, /needs the reduction to detect/);
    assert.match((await errorOf('repeats detect 0 % spread 4 %')).message, /`detect` .* above 0 %/);
    assert.match((await errorOf('repeats detect 5 % spread 0 %')).message, /`spread` .* above 0 %/);
  });
});

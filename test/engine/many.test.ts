import { strict as assert } from 'node:assert';
import { Engine } from '../../src/engine/engine.ts';
import { show } from '../../src/engine/show.ts';
import type { StatementResult } from '../../src/engine/result.ts';
import { holdToGrowth } from '../growth.ts';
import { MemoryHost, quietWatch, recording } from './memoryFiles.ts';

const run = async (host: MemoryHost, cell: string) => {
  const report = await new Engine(host).run({ cells: [cell], wanted: 'all', keyed: [0] }, quietWatch);
  return report.results;
};

/** Some fifth of the rows lost, in stamps that are fine enough to tell. */
function gappy(rows: number): string {
  const lines = ['t (s),z (g)'];
  let state = 1;
  for (let i = 0; i < rows; i++) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    if (state > 2 ** 32 / 5)
      lines.push(`${(i / 100 + 1e-4 * Math.sin(i)).toFixed(5)},${(1 + 0.1 * Math.sin(i)).toFixed(5)}`);
  }
  return lines.join('\n');
}

describe('a recording of very many stretches', () => {
  const host = new MemoryHost({ 'a.csv': gappy(100_000) });

  it('is drawn in as many columns as a picture has, and its places as what they cover', async () => {
    const results = await run(host, 'r = load "a.csv"\nplot r\ncheck r');
    for (const result of results.slice(1)) assert.ok(rowsOf(result) < 5000, `${rowsOf(result)} rows`);
  });
});

/** How much data a result's chart draws: rows of layers, and the numbers of a line. */
function rowsOf(result: StatementResult): number {
  let rows = 0;
  JSON.stringify(
    show(result)
      ?.parts.filter(({ type }) => type === 'chart')
      .map((part) => ('vega' in part ? part.vega : part)),
    (_, value: unknown) => {
      if (Array.isArray(value)) rows += value.length;
      return value;
    },
  );
  assert.ok(rows > 100);
  return rows;
}

describe('a comparison of many runs', () => {
  it('takes as long as there are runs', () =>
    holdToGrowth(
      (runs) => {
        const contents: Record<string, string> = {};
        for (let k = 0; k < runs; k++)
          contents[`${k % 2 === 0 ? 'a' : 'b'}${k}.csv`] = recording({ seconds: 3, rate: 100, seed: k + 1 });
        return contents;
      },
      100,
      async (contents) => {
        const host = new MemoryHost(contents);
        await run(
          host,
          'a = load "a*.csv" channel z\nb = load "b*.csv" channel z\ncheck a\ncompare a with b over 10..30 Hz',
        );
      },
    ));
});

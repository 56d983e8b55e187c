import { strict as assert } from 'node:assert';
import { shownByCell } from '../../src/cli/shown.ts';
import { Engine } from '../../src/engine/engine.ts';
import { reportJson } from '../../src/engine/json.ts';
import type { RunReport } from '../../src/engine/result.ts';
import { holdToGrowth } from '../growth.ts';
import { MemoryHost, quietWatch } from './memoryFiles.ts';

const run = (cells: readonly string[]): Promise<RunReport> =>
  new Engine(new MemoryHost()).run({ cells, wanted: 'all', keyed: [...cells.keys()] }, quietWatch);

const hard: Readonly<Record<string, (size: number) => readonly string[]>> = {
  'statements of one cell': (size) => ['1 + 1\n'.repeat(size)],
  'statements that fail': (size) => ['1 + 1 m\n'.repeat(size)],
  cells: (size) => Array.from({ length: size }, (_, i) => `x${i} = ${i}`),
  'cells that need each the next': (size) =>
    Array.from({ length: size }, (_, i) => `x${size - i} = ${i === size - 1 ? '1' : `x${size - i - 1} + 1`}`),
};

describe('a run of a notebook of whatever size', () => {
  for (const [name, make] of Object.entries(hard))
    it(`takes as long as the notebook, to the last result: ${name}`, () =>
      holdToGrowth(make, 1500, async (cells) => {
        const report = await run(cells);
        const places = cells.map((_, line) => ({ line }));
        reportJson('a', places, report);
        shownByCell(report);
      }));

  it('keys a long sum, and names that need each other in a long chain', async () => {
    const names = Array.from({ length: 2000 }, (_, i) => `x${i} = ${i === 0 ? '1' : `x${i - 1} + 1`}`);
    const { ok, keys, results } = await run([`s = ${'1 + '.repeat(900)}1`, ...names.reverse()]);
    assert.ok(ok);
    assert.equal(new Set(keys.values()).size, 2001);
    const [{ value }] = results.filter(({ name }) => name === 'x1999');
    assert.ok(value?.kind === 'quantity' && value.quantity.value === 2000);
  });
});

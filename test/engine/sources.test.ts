import { strict as assert } from 'node:assert';
import { Engine } from '../../src/engine/engine.ts';
import { MemoryHost, quietWatch, recording } from './memoryFiles.ts';

describe('the files that the patterns of a run stand for', () => {
  const made = (seed: number): string => recording({ seconds: 4, rate: 100, seed });

  it('are those of one moment: what is deleted while it runs is missing in no set without a word', async () => {
    const host = new MemoryHost({ 'raw/a-1.csv': made(1), 'raw/a-2.csv': made(2), 'raw/b-1.csv': made(3) });
    const { open } = host.files;
    (host.files as { open: typeof open }).open = (path, identity) => {
      const opened = open(path, identity);
      if (path === 'raw/a-2.csv') host.contents.delete(path);
      return opened;
    };
    const cells = ['all = load "raw/*.csv"', 'a = load "raw/a-*.csv"'];
    const { results } = await new Engine(host).run({ cells, wanted: 'all' }, quietWatch);
    const runs = results.map(({ value }) =>
      value?.kind === 'runs' ? value.runs.map(({ label }) => label) : undefined,
    );
    assert.deepEqual(runs, [
      ['a-1', 'a-2', 'b-1'],
      ['a-1', 'a-2'],
    ]);
  });
});

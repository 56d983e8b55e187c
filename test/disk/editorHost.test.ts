import { strict as assert } from 'node:assert';
import { unsavedHost } from '../../src/disk/editorHost.ts';
import { Engine } from '../../src/engine/engine.ts';
import { starterNotebook } from '../../src/engine/starter.ts';

describe('a notebook that lies in no folder yet', () => {
  it('runs what needs no file, and says of the rest in one sentence that it has to be saved', async () => {
    const cells = ['repeats detect 10 % spread 5 %', 'a = load "raw/a.csv"', 'check a', 'sheet "runs.csv"'];
    const watch = { cancelled: () => false, progress: () => undefined };
    const { results } = await new Engine(unsavedHost()).run({ cells, wanted: 'all' }, watch);
    assert.deepEqual(
      results.map(({ error }) => error?.code),
      [undefined, 'file.unsaved', 'name.failed', 'file.unsaved'],
    );
    assert.match(results[1].error?.message ?? '', /^raw files need a saved notebook[^\n]*\.$/);
  });

  it('begins with the whole way, of which the plan and the number of runs can be run', async () => {
    const cells = [...starterNotebook([], []).matchAll(/^```washboard\n(.*?)^```$/gms)].map((match) => match[1]);
    const watch = { cancelled: () => false, progress: () => undefined };
    const { results } = await new Engine(unsavedHost()).run({ cells, wanted: 'all' }, watch);
    assert.deepEqual(
      results.slice(0, 2).map(({ value }) => value?.kind),
      ['plan', 'repeats'],
    );
    assert.ok(results.slice(2).every(({ error }) => error?.code === 'file.unsaved' || error?.code === 'name.failed'));
  });
});

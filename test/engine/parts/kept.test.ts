import { strict as assert } from 'node:assert';
import { Engine } from '../../../src/engine/engine.ts';
import { reportJson } from '../../../src/engine/json.ts';
import type { Kept } from '../../../src/engine/kept/keptAnswers.ts';
import { MemoryHost, MemoryKept, quietWatch, recording } from '../memoryFiles.ts';

const cells = ['a = load "*.csv" | channel z\nspectrum (trim a 2..50 s)\nlevels a'];

const filesOf = (count: number): Record<string, string> =>
  Object.fromEntries(
    Array.from({ length: count }, (_, n) => [`run-${n + 1}.csv`, recording({ seconds: 60, rate: 200, seed: n + 1 })]),
  );

/** Runs the cells as a program does that was just started. */
async function run(
  files: Record<string, string>,
  kept?: Kept,
): Promise<{ json: string; opened: string[]; computed: boolean[] }> {
  const host = new MemoryHost(files);
  const report = await new Engine(kept === undefined ? host : Object.assign(host, { kept })).run(
    { cells, wanted: 'all' },
    quietWatch,
  );
  const json = reportJson('n', [{ line: 1 }], report);
  return { json: JSON.stringify(json), opened: host.opened, computed: report.results.map(({ cached }) => !cached) };
}

describe('what recordings gave, kept one by one', () => {
  it('makes a change of one file, or one file more, the work of that file', async () => {
    const kept = new MemoryKept();
    const before = filesOf(4);
    assert.equal((await run(before, kept)).opened.length, 4);
    const again = await run(before, kept);
    assert.deepEqual(again.opened, []);
    assert.equal(again.json, (await run(before)).json);

    const changed = { ...before, 'run-2.csv': recording({ seconds: 60, rate: 200, seed: 99 }) };
    const afterChange = await run(changed, kept);
    assert.deepEqual(afterChange.opened, ['run-2.csv']);
    assert.equal(afterChange.json, (await run(changed)).json);

    const more = filesOf(5);
    const afterMore = await run(more, kept);
    assert.deepEqual(afterMore.opened, ['run-5.csv']);
    assert.equal(afterMore.json, (await run(more)).json);
  });

  it('holds nothing of a recording in which the run was stopped, and all of those before it', async () => {
    const kept = new MemoryKept();
    const host = Object.assign(new MemoryHost(filesOf(4)), { kept });
    let isStopped = false;
    const watch = {
      cancelled: () => isStopped,
      progress: (_: number, what: string) => void (isStopped ||= what.startsWith('reading run-3')),
    };
    const report = await new Engine(host).run({ cells, wanted: 'all' }, watch);
    assert.ok(report.cancelled);
    const after = await run(filesOf(4), kept);
    assert.deepEqual(after.opened, ['run-3.csv', 'run-4.csv']);
    assert.equal(after.json, (await run(filesOf(4))).json);
  });
});

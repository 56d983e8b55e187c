import { strict as assert } from 'node:assert';
import { appendFile } from 'node:fs/promises';
import { join } from 'node:path';
import * as vscode from 'vscode';
import { engineIn } from '../../../src/editor/node/engine.ts';
import { EngineThread } from '../../../src/editor/engineThread.ts';
import { EngineThreads, type CellRun } from '../../../src/editor/engineThreads.ts';
import type { Told } from '../../../src/editor/engineProgram.ts';
import { fileOf } from './workspace.ts';

/** Rows for some seconds of reading, on a busy machine as well. */
async function writeLong(file: vscode.Uri): Promise<void> {
  const rows = ['t (s),x (g),y (g),z (g)'];
  for (let i = 0; i < 1_500_000; i++) rows.push(`${(i / 1000).toFixed(3)},0.${i % 997},0.${i % 991},1.${i % 983}`);
  await vscode.workspace.fs.writeFile(file, Buffer.from(rows.join('\n') + '\n'));
}

describe('the engines of several notebooks', function () {
  this.timeout(120_000);
  const file = fileOf('beside', 'long.csv');
  const folder = fileOf('beside').fsPath;
  const long = ['levels (load "long.csv")'];
  const short = ['2 N/mm'];
  let started: EngineThread[];
  let ended: EngineThread[];
  let engines: EngineThreads | undefined;

  before(() => writeLong(file));
  // No earlier run, nor one of another day, knows this file's results.
  beforeEach(() => appendFile(file.fsPath, `1500.${Date.now()},0,0,1\n`));
  afterEach(() => engines?.dispose());
  after(() => vscode.workspace.fs.delete(fileOf('beside'), { recursive: true }));

  /** Engines in at most so many threads, and what becomes of these. */
  function enginesIn(most: number): EngineThreads {
    started = [];
    ended = [];
    const { extensionPath } = vscode.extensions.getExtension('washboard-notebooks.washboard')!;
    class Watched extends EngineThread {
      override dispose(): Promise<void> {
        ended.push(this);
        return super.dispose();
      }
    }
    const start = (): EngineThread => {
      const thread = new Watched(engineIn(join(extensionPath, 'dist', 'worker.mjs')));
      started.push(thread);
      return thread;
    };
    return (engines = new EngineThreads(start, () => most));
  }

  const place = (notebook: string): { folder: string; root: string; notebook: string } => ({
    folder,
    root: folder,
    notebook,
  });

  function run(notebook: string, cells: readonly string[], onStop: (stop: () => void) => void = () => undefined) {
    const order = { notebook: place(notebook), cells, numbers: [1], wanted: [0], keyed: [], display: {} };
    return engines!.run(
      order,
      { output: () => undefined, settled: () => undefined, progress: () => undefined },
      onStop,
    );
  }

  /** Whether the first settles before the second. */
  const comesFirst = async (first: Promise<CellRun>, second: Promise<CellRun>): Promise<boolean> =>
    Promise.race([first.then(() => true), second.then(() => false)]);

  it('run side by side: one does not wait for the long work of another', async () => {
    enginesIn(2);
    const slow = run('a', long);
    const quick = run('b', short);
    assert.ok(await comesFirst(quick, slow), 'the short work waited');
    assert.equal((await slow).ok, true);
  });

  it('wait for each other where there may be no more threads', async () => {
    enginesIn(1);
    const slow = run('a', long);
    const quick = run('b', short);
    assert.ok(await comesFirst(slow, quick));
    assert.equal(started.length, 1);
  });

  it('take a free thread where their own works for another notebook', async () => {
    enginesIn(2);
    await Promise.all([run('a', short), run('b', short)]);
    // Two threads have three notebooks.
    await run('c', short);
    const slow = run('a', long);
    const quick = run('c', short);
    assert.ok(await comesFirst(quick, slow), 'the third waited');
    assert.equal((await slow).ok, true);
  });

  it('are stopped one by one', async () => {
    enginesIn(2);
    await Promise.all([run('a', short), run('b', short)]);
    let stop: () => void = () => undefined;
    const stopped = run('a', long, (how) => (stop = how));
    const going = run('b', long);
    setTimeout(stop, 50);
    assert.equal((await stopped).cancelled, true);
    const { ok, cancelled } = await going;
    assert.deepEqual({ ok, cancelled }, { ok: true, cancelled: false });
  });

  it('count as stopped soon, whatever long step they are still in', async () => {
    const silent = new EngineThread(() => ({ tell: () => undefined, end: () => Promise.resolve() }));
    engines = new EngineThreads(
      () => silent,
      () => 1,
    );
    let stop: () => void = () => undefined;
    const stopped = run('a', long, (how) => (stop = how));
    const began = performance.now();
    stop();
    assert.equal((await stopped).cancelled, true);
    // 200 ms are promised; a busy machine may look at its clock late.
    assert.ok(performance.now() - began < 1000);
  });

  it('are replaced where a step goes on after that, and what waited behind it is asked of the next', async () => {
    const asked: number[][] = [];
    const ended: number[] = [];
    const thread = new EngineThread((listener) => {
      const own: number[] = [];
      const at = asked.push(own) - 1;
      const tell = (message: Told): void => {
        if (!('id' in message) || message.type !== 'run') return;
        own.push(message.id);
        // The first is in a step that does not end.
        if (at > 0) listener.said({ type: 'done', id: message.id, ok: true, cancelled: false, keys: new Map() });
      };
      return { tell, end: () => Promise.resolve(ended.push(at)) };
    });
    engines = new EngineThreads(
      () => thread,
      () => 1,
    );
    let stop: () => void = () => undefined;
    const stopped = run('a', long, (how) => (stop = how));
    const other = run('b', short);
    stop();
    assert.equal((await stopped).cancelled, true);
    assert.equal((await other).ok, true);
    assert.deepEqual(asked, [[1, 2], [2]]);
    assert.deepEqual(ended, [0]);
    assert.equal((await run('a', short)).ok, true);
  });

  it('keep what they know with their notebook, and end with it but for the last', async () => {
    enginesIn(4);
    await Promise.all([run('a', short), run('b', short)]);
    await run('a', short);
    assert.equal(started.length, 2);
    engines!.forget(place('a'));
    assert.deepEqual(ended, [started[0]]);
    engines!.forget(place('b'));
    assert.deepEqual(ended, [started[0]]);
    await run('c', short);
    assert.equal(started.length, 2);
  });

  it('finish what was asked before they end with their notebook', async () => {
    enginesIn(2);
    await run('b', short);
    const last = run('a', long);
    engines!.forget(place('a'));
    assert.equal((await last).ok, true);
    await new Promise((done) => setTimeout(done, 10));
    assert.equal(ended.length, 1);
  });
});

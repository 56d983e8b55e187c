import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { recording } from '../engine/memoryFiles.ts';
import { hasSlurm, startSlurm, type OneNodeSlurm } from './oneNodeSlurm.ts';

const program = resolve('dist', 'washboard.mjs');

const notebook = `\`\`\`washboard
a = load "raw/run-*.csv" | trim 1..5 s
levels a
b = spectrum (channel a z) using window hann 1 s
band b 5..20 Hz
\`\`\`
`;

describe('a run in shares by Slurm', function () {
  this.timeout(240_000);
  let folder: string;
  let slurm: OneNodeSlurm | undefined;

  before(async function () {
    if (!hasSlurm() || !existsSync(program)) return this.skip();
    folder = mkdtempSync(join(tmpdir(), 'washboard-slurm-'));
    mkdirSync(join(folder, 'raw'));
    for (let n = 1; n <= 8; n++)
      writeFileSync(join(folder, 'raw', `run-${n}.csv`), recording({ seconds: 8, rate: 100, seed: n }));
    writeFileSync(join(folder, 'study.washboard.md'), notebook);
    slurm = await startSlurm(join(folder, 'slurm'), 4);
  });
  after(async () => {
    await slurm?.stop();
    if (folder !== undefined) rmSync(folder, { recursive: true, force: true });
  });

  const run = (...options: readonly string[]): string =>
    spawnSync(process.execPath, [program, 'run', 'study.washboard.md', ...options], { cwd: folder, encoding: 'utf8' })
      .stdout;
  const line = (options: string): string =>
    `exec ${process.execPath} ${program} run study.washboard.md --cache store ${options}`;
  const here = (output: string, ...more: readonly string[]): string[] => [
    `--chdir=${folder}`,
    `--output=${join(folder, output)}`,
    ...more,
  ];
  const read = (name: string): string => readFileSync(join(folder, name), 'utf8');

  it('names the share of a task that failed, and gives to the byte what the plain run gives once it was tried again', async () => {
    const plain = run('--json', '--no-cache');
    assert.ok(plain.length > 1000);
    const planned = run('--cache', 'store', '--plan', '4');
    assert.match(planned, /^4\/4: 2 recordings/m);

    // A task fails where its recording is away for a while, as a disk of the network may be.
    const [raw, away] = [join(folder, 'raw', 'run-3.csv'), join(folder, 'away.csv')];
    renameSync(raw, away);
    const share = line('--share $SLURM_ARRAY_TASK_ID/$SLURM_ARRAY_TASK_COUNT');
    const array = slurm!.submit(here('share-%a.txt', '--array=1-4'), share);
    const waiting = slurm!.submit(
      here('never.txt', `--dependency=afterok:${array}`, '--kill-on-invalid-dep=yes'),
      line('--collect --json'),
    );
    const tasks = (await slurm!.ended(array)).toSorted((a, b) => a.task - b.task);
    const failed = tasks.filter(({ state }) => state !== 'COMPLETED');
    assert.deepEqual(
      tasks.map(({ task }) => task),
      [1, 2, 3, 4],
    );
    assert.equal(failed.length, 1, JSON.stringify(tasks));
    assert.notEqual(failed[0].exitCode, 0);
    assert.match(read(`share-${failed[0].task}.txt`), /run-3\.csv/);
    assert.equal((await slurm!.ended(waiting))[0].state, 'CANCELLED');
    assert.ok(!existsSync(join(folder, 'never.txt')));

    renameSync(away, raw);
    const [early] = await slurm!.ended(slurm!.submit(here('early.txt'), line('--collect')));
    assert.equal(early.exitCode, 3, read('early.txt'));
    assert.match(read('early.txt'), new RegExp(`share ${failed[0].task}/4 is missing.*run-3`));

    const again = line(`--share ${failed[0].task}/4`);
    const [second] = await slurm!.ended(slurm!.submit(here('again.txt'), again));
    assert.equal(second.state, 'COMPLETED', read('again.txt'));
    const collect = slurm!.submit(here('study.json', `--error=${join(folder, 'study.txt')}`), line('--collect --json'));
    assert.equal((await slurm!.ended(collect))[0].exitCode, 0);
    assert.equal(read('study.json'), plain);
  });
});

import { strict as assert } from 'node:assert';
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, rmSync, writeFileSync, mkdtempSync, mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { recording } from '../engine/memoryFiles.ts';

const program = resolve('dist', 'washboard.mjs');
const hasParallel =
  spawnSync('parallel', ['--version'], { encoding: 'utf8' }).stdout?.startsWith('GNU parallel') === true;

const notebook = `\`\`\`washboard
a = load "raw/run-*.csv" | trim 1..5 s
levels a
spectrum (channel a z) using window hann 1 s
load "raw/none.txt"
\`\`\`
`;

describe('a run in shares by GNU parallel', function () {
  before(function () {
    if (!hasParallel || !existsSync(program)) this.skip();
  });

  it('gives to the byte what the plain run gives', () => {
    const folder = mkdtempSync(join(tmpdir(), 'washboard-shares-'));
    try {
      mkdirSync(join(folder, 'raw'));
      for (let n = 1; n <= 6; n++)
        writeFileSync(join(folder, 'raw', `run-${n}.csv`), recording({ seconds: 8, rate: 100, seed: n }));
      writeFileSync(join(folder, 'raw', 'none.txt'), 'no table\n');
      writeFileSync(join(folder, 'study.washboard.md'), notebook);
      const run = (...options: readonly string[]): string =>
        spawnSync(process.execPath, [program, 'run', 'study.washboard.md', ...options], {
          cwd: folder,
          encoding: 'utf8',
        }).stdout;
      const plain = run('--json', '--no-cache');
      assert.ok(plain.length > 1000);
      run('--cache', 'store', '--plan', '3');
      const share = `${process.execPath} ${program} run study.washboard.md --cache store --share {}/3`;
      execFileSync('parallel', ['--will-cite', '--jobs', '2', '--retries', '2', share, ':::', '1', '2', '3'], {
        cwd: folder,
        stdio: 'pipe',
      });
      assert.equal(run('--cache', 'store', '--collect', '--json'), plain);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

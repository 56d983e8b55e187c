// Proves that shares work under real batch engines: npm run cluster. What is missing of GNU parallel, Slurm and MUNGE is installed
// from Debian where we are root; then their two tests are run over the built command line.
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const path = `${process.env.PATH}:/usr/sbin`;
const has = (name) =>
  spawnSync('sh', ['-c', `command -v ${name}`], { env: { ...process.env, PATH: path } }).status === 0;
const packages = [
  ['parallel', ['parallel']],
  ['slurm-wlm', ['sbatch', 'scontrol', 'slurmctld', 'slurmd']],
  ['munge', ['munged']],
];
const missing = packages.filter(([, programs]) => !programs.every(has)).map(([name]) => name);
if (missing.length > 0) {
  if (process.getuid?.() !== 0 || !has('apt-get')) {
    console.error(`Install ${missing.join(', ')} first: only root may, and only Debian's apt-get is known here.`);
    process.exit(1);
  }
  console.log(`Installing the Debian packages ${missing.join(', ')} …`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const args of [['update'], ['install', '-y', '--no-install-recommends', ...missing]]) {
    const { status } = spawnSync('apt-get', args, { env, stdio: ['ignore', 'ignore', 'inherit'] });
    if (status !== 0) process.exit(1);
  }
}
const run = (...args) => spawnSync(process.execPath, args, { cwd: root, stdio: 'inherit' }).status ?? 1;
const built = run('scripts/build.mjs');
const mocha = join('node_modules', 'mocha', 'bin', 'mocha.js');
process.exit(built || run(mocha, '--forbid-pending', 'test/cli/parallel.test.ts', 'test/cli/slurm.test.ts'));

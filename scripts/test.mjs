// The whole test: lint, types, unit and published checks, then a real editor. Ends with the counts of all of them.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureTools } from './debianTools.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const reports = mkdtempSync(join(tmpdir(), 'washboard-test-'));
const bin = (name) => join(root, 'node_modules', '.bin', name);
const counts = { passed: 0, failed: 0 };

function step(title, command, args, report) {
  console.log(`\n── ${title}`);
  const began = Date.now();
  const { status } = spawnSync(command, args, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, FORCE_COLOR: '0' },
  });
  const read = report !== undefined && existsSync(report) ? JSON.parse(readFileSync(report, 'utf8')).stats : undefined;
  if (read !== undefined) {
    counts.passed += read.passes;
    counts.failed += read.failures;
  }
  // A step without counts of its own, or one that died before it could count, is one check.
  if (read === undefined || (status !== 0 && read.failures === 0)) counts[status === 0 ? 'passed' : 'failed'] += 1;
  console.log(`── ${title}: ${status === 0 ? 'passed' : 'FAILED'} in ${Math.round((Date.now() - began) / 1000)} s`);
}

ensureTools(console.log);
const unit = join(reports, 'unit.json');
step('lint', bin('eslint'), ['.']);
step('format', bin('prettier'), ['--check', '--log-level', 'warn', '.']);
step('types', bin('tsc'), ['-b']);
step('build', process.execPath, ['scripts/build.mjs']);
step(
  'unit and published checks',
  process.execPath,
  [
    bin('mocha').replace('.bin/mocha', 'mocha/bin/mocha.js'),
    'test/**/*.test.ts',
    // Files side by side, one a core.
    '--parallel',
    '--jobs',
    String(availableParallelism()),
    '--ignore',
    'test/editor/**',
    '--reporter',
    'scripts/mochaReporter.cjs',
    '--reporter-option',
    `output=${unit}`,
  ],
  unit,
);
const editor = join(reports, 'editor.json');
if (process.argv.includes('--no-editor')) console.log('\n── editor tests left out');
else step('real editor', process.execPath, ['scripts/testEditor.mjs', '--report', editor], editor);
rmSync(reports, { recursive: true, force: true });
console.log(`\n${counts.passed} passed, ${counts.failed} failed`);
process.exit(counts.failed === 0 ? 0 : 1);

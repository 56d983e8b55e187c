// Packs the extension: node scripts/package.mjs [-o FILE.vsix]. The build must be there.
//
// The page of an extension in the editor shows pictures and follows links by addresses of the web alone. Where
// package.json names a repository the packer makes such addresses; without one the packed README goes without.
import { spawn } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { listFiles, PackageManager } from '@vscode/vsce';
import { withoutNeighbours } from './build/readme.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');

/**
 * Packs the extension as it is built.
 * @param {readonly string[]} options of vsce
 * @returns {Promise<void>} rejected where vsce fails
 */
export async function pack(options) {
  const folder = join(root, 'out', 'package');
  rmSync(folder, { recursive: true, force: true });
  const files = await listFiles({ cwd: root, packageManager: PackageManager.None });
  for (const file of [...files, '.vscodeignore']) {
    mkdirSync(dirname(join(folder, file)), { recursive: true });
    cpSync(join(root, file), join(folder, file));
  }
  const { repository } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const readme = join(folder, 'README.md');
  if (repository === undefined) writeFileSync(readme, withoutNeighbours(readFileSync(readme, 'utf8')));
  const packing = ['package', '--no-dependencies'];
  if (repository === undefined) packing.push('--allow-missing-repository', '--no-rewrite-relative-links');
  const vsce = join(root, 'node_modules', '@vscode', 'vsce', 'vsce');
  await new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [vsce, ...packing, ...options], { cwd: folder, stdio: 'inherit' });
    child.once('error', reject);
    child.once('exit', (code) => (code === 0 ? resolve() : reject(new Error(`vsce ended with ${code}`))));
  });
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const at = process.argv.indexOf('-o');
  await pack(['-o', resolve(at < 0 ? '.' : process.argv[at + 1])]);
}

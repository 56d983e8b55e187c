// Poppler's small tools read the PDF files that the tests make. Where they are missing, this is Debian and we are root, they are
// installed; elsewhere the one test that needs them is left out, and says so.
import { spawnSync } from 'node:child_process';

export function ensurePoppler(say = () => {}) {
  if (spawnSync('pdffonts', ['-v']).error === undefined) return;
  if (process.getuid?.() !== 0 || spawnSync('apt-get', ['--version']).status !== 0) return;
  say('Installing the Debian package poppler-utils, which reads PDF files …');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'poppler-utils']])
    spawnSync('apt-get', args, { env, stdio: ['ignore', 'ignore', 'inherit'] });
}

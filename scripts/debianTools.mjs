// Small programs that single tests need: Poppler's read the PDF files that are made, and GNU parallel starts the shares of a study.
// Where they are missing, this is Debian and we are root, they are installed; elsewhere those tests are left out, and say so.
import { spawnSync } from 'node:child_process';

const tools = [
  { program: 'pdffonts', version: '-v', package: 'poppler-utils', does: 'reads PDF files' },
  { program: 'parallel', version: '--version', package: 'parallel', does: 'starts the shares of a study' },
];

export function ensureTools(say = () => {}) {
  const missing = tools.filter(({ program, version }) => spawnSync(program, [version]).error !== undefined);
  if (missing.length === 0) return;
  if (process.getuid?.() !== 0 || spawnSync('apt-get', ['--version']).status !== 0) return;
  for (const { package: name, does } of missing) say(`Installing the Debian package ${name}, which ${does} …`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const names = missing.map((tool) => tool.package);
  for (const args of [['update'], ['install', '-y', '--no-install-recommends', ...names]])
    spawnSync('apt-get', args, { env, stdio: ['ignore', 'ignore', 'inherit'] });
}

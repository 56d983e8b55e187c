// Finds the Chromium that drives the served editor; on a Debian where we may, installs it.
import { spawnSync } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The program's path, or null. `CHROMIUM` in the environment goes first. */
export function findChromium() {
  const named = process.env.CHROMIUM;
  if (named) {
    if (runnable(named)) return named;
    throw new Error(`CHROMIUM is ${named}, and that is no program that can be run.`);
  }
  const folders = (process.env.PATH ?? '').split(delimiter).filter(Boolean);
  const places = ['chromium', 'chromium-browser'].flatMap((name) =>
    [...folders, '/usr/bin'].map((folder) => join(folder, name)),
  );
  return places.find(runnable) ?? null;
}

/** Chromium, installed from Debian's packages if it is missing, this is Debian and we are root. */
export function ensureChromium(say = () => {}) {
  const found = findChromium();
  if (found) return found;
  if (process.getuid?.() === 0 && spawnSync('apt-get', ['--version']).status === 0) {
    say('Installing the Debian package chromium, which drives the editor …');
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    const steps = [['update'], ['install', '-y', '--no-install-recommends', 'chromium', 'fonts-dejavu-core']];
    const failed = steps.find(
      (args) => spawnSync('apt-get', args, { env, stdio: ['ignore', 'ignore', 'inherit'] }).status !== 0,
    );
    const installed = failed ? null : findChromium();
    if (installed) return installed;
    throw new Error(`apt-get ${(failed ?? steps[1]).join(' ')} did not bring a Chromium; its message stands above.`);
  }
  throw new Error(
    'the editor tests need Chromium: install it (on Debian: apt-get update && apt-get install -y chromium), ' +
      'or set CHROMIUM to the path of one.',
  );
}

/** For a machine without a display, without a sandbox and with a small /dev/shm. */
export const chromiumArgs = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-dev-shm-usage',
];

function runnable(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  try {
    console.log(ensureChromium(console.error));
  } catch (error) {
    console.error(`Error: ${error.message}`);
    process.exitCode = 1;
  }
}

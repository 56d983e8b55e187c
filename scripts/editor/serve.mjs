// Serves a real Visual Studio Code with this project as an extension under development. As a program
// (`npm run editor`) it opens a copy of the samples and stops with Ctrl-C; as a library it serves the editor's tests.
import { spawn } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
  openSync,
  closeSync,
} from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { installEditor, themesOf } from './install.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url)).replace(/\/$/, '');

/** Settings of every served editor: nothing that talks to the network, greets, asks or saves by itself. */
export const quiet = {
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'extensions.ignoreRecommendations': true,
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.editorAssociations': { '*.washboard.md': 'washboard-notebook' },
  'chat.disableAIFeatures': true,
  'security.workspace.trust.enabled': false,
  'git.openRepositoryInParentFolders': 'never',
  'window.autoDetectColorScheme': false,
  'files.simpleDialog.enable': true,
  // In a browser the editor saves by itself, and a save asked for while that one fails on a changed output fails with it.
  'files.autoSave': 'off',
};

/** Settings of an editor that trusts no folder, and does not ask whether it may. */
const untrusted = { 'security.workspace.trust.enabled': true, 'security.workspace.trust.startupPrompt': 'never' };

/**
 * Starts the editor's server and waits until it answers.
 * @param {{
 *   workspace: string, extension?: string | null, extensionsDir?: string, settings?: Record<string, unknown>,
 *   which?: 'newest' | 'oldest', open?: string, suite?: string, host?: string, port?: number, env?: Record<string, string>,
 *   restricted?: boolean, say?: (line: string) => void }} options
 */
export async function serveEditor(options) {
  const { workspace, extension = root, host = '127.0.0.1', env = {}, say, restricted = false } = options;
  const settings = { ...quiet, ...(restricted && untrusted), ...options.settings };
  const editor = await installEditor(say, options.which);
  const data = mkdtempSync(join(tmpdir(), 'washboard-editor-'));
  mkdirSync(join(data, 'data', 'User'), { recursive: true });
  writeFileSync(join(data, 'data', 'User', 'settings.json'), JSON.stringify(settings, null, 2));
  const port = options.port ?? (await freePort(host));
  const logFile = join(data, 'server.log');
  const log = openSync(logFile, 'a');
  const flags = ['--without-connection-token', '--accept-server-license-terms', '--disable-telemetry'];
  // Without the smoke test driver, the editor ignores an extension under development that an address names.
  flags.push('--enable-smoke-test-driver');
  if (!restricted) flags.push('--disable-workspace-trust');
  const folders = ['--server-data-dir', data, '--user-data-dir', join(data, 'data')];
  folders.push('--extensions-dir', options.extensionsDir ?? join(data, 'extensions'));
  const child = spawn(editor.node, [editor.server, '--host', host, '--port', String(port), ...flags, ...folders], {
    detached: true,
    stdio: ['ignore', log, log],
    env: { ...process.env, ...env },
  });
  closeSync(log);
  let ended = null;
  child.once('error', (error) => (ended = error.message));
  child.once('exit', (code, signal) => (ended ??= `it ended with ${code ?? signal}`));
  const tail = () => readFileSync(logFile, 'utf8').slice(-3000);
  const stop = async () => {
    process.removeListener('exit', killNow);
    await killGroup(child, () => ended !== null);
    rmSync(data, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  };
  const killNow = () => signalGroup(child, 'SIGKILL');
  process.once('exit', killNow);
  const origin = `http://${host}:${port}`;
  const deadline = Date.now() + 60_000;
  while (!(await answers(`${origin}/version`))) {
    if (ended === null && Date.now() < deadline) {
      await new Promise((resolve) => setTimeout(resolve, 100));
      continue;
    }
    const log = tail();
    await stop();
    throw new Error(`the editor's server did not start (${ended ?? 'no answer in 60 s'}). The end of its log:\n${log}`);
  }
  const url = addressOf(origin, { ...options, workspace, extension });
  return { url, origin, port, workspace, themes: themesOf(editor), log: tail, stop };
}

/** The address that opens the workspace with the extension, and a file or a test suite. */
function addressOf(origin, { workspace, extension, open, suite }) {
  const remote = (path) => `vscode-remote://${new URL(origin).host}${encodeURI(resolve(path))}`;
  const payload = [['skipWelcome', 'true']];
  if (extension !== null) payload.push(['extensionDevelopmentPath', remote(extension)]);
  if (suite) payload.push(['extensionTestsPath', remote(suite)]);
  if (open) payload.push(['openFile', remote(join(workspace, open))]);
  const query = new URLSearchParams({ folder: resolve(workspace), payload: JSON.stringify(payload) });
  return `${origin}/?${query}`;
}

function freePort(host) {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, host, () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}

async function answers(url) {
  return fetch(url, { signal: AbortSignal.timeout(5000) }).then(
    ({ ok }) => ok,
    () => false,
  );
}

/** The extension host is a child of the server, so the whole group gets the signal. */
function signalGroup(child, signal) {
  if (child.pid === undefined) return;
  try {
    process.kill(-child.pid, signal);
  } catch {
    // The group is gone already.
  }
}

async function killGroup(child, ended) {
  signalGroup(child, 'SIGTERM');
  for (let waited = 0; waited < 5000 && !ended(); waited += 50) await new Promise((resolve) => setTimeout(resolve, 50));
  signalGroup(child, 'SIGKILL');
}

async function main() {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { port: { type: 'string' }, host: { type: 'string' }, help: { type: 'boolean', short: 'h' } },
  });
  if (values.help) return console.log(usage);
  const port = values.port === undefined ? undefined : Number(values.port);
  if (port !== undefined && !(Number.isInteger(port) && port > 0 && port < 65536))
    throw new Error(`--port ${values.port} is no port`);
  const [given] = positionals;
  if (given !== undefined && !(existsSync(given) && statSync(given).isDirectory()))
    throw new Error(`there is no folder ${given}`);
  const copies = given === undefined ? mkdtempSync(join(tmpdir(), 'washboard-samples-')) : null;
  const workspace = copies === null ? resolve(given) : join(copies, 'samples');
  if (copies) cpSync(join(root, 'samples'), workspace, { recursive: true });
  const remove = () => copies && rmSync(copies, { recursive: true, force: true });
  try {
    const open =
      copies && existsSync(join(workspace, 'seat-pad.washboard.md')) ? { open: 'seat-pad.washboard.md' } : {};
    const editor = await serveEditor({
      workspace,
      ...open,
      ...(port !== undefined && { port }),
      ...(values.host !== undefined && { host: values.host }),
      say: console.error,
    });
    const what = copies ? `a copy of the samples (${workspace}; it goes when the editor stops)` : workspace;
    console.log(`\nA Visual Studio Code with Washboard serves ${basename(workspace)}: ${what}.`);
    console.log(`Open this address in a browser:\n\n  ${editor.url}\n\nCtrl-C stops it.`);
    await new Promise((resolve) => ['SIGINT', 'SIGTERM', 'SIGHUP'].forEach((signal) => process.once(signal, resolve)));
    await editor.stop();
  } finally {
    remove();
  }
}

const usage = `Usage: node scripts/editor/serve.mjs [FOLDER] [--port N] [--host ADDRESS]
Serves a Visual Studio Code with this extension and FOLDER open (without one: a copy of the samples).`;

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await main().catch((error) => {
    console.error(`Error: ${error.message}`);
    process.exitCode = 1;
  });
}

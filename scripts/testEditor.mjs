// The tests in a real editor. First the suite inside the extension host: of the desktop editor that VSCODE_EXECUTABLE
// names, or, with WASHBOARD_DESKTOP=1, of one that is downloaded; else of the served editor. Then the tests of the
// page, always in the served editor, and between them a study from beginning to end with the packed extension as it is installed.
// --only suite|packed|oldest|ui|web: `web` is the extension in the browser alone, in an editor without a server; `oldest` is the packed extension in the oldest editor that it says it runs in.
// Ends with the counts; --report FILE writes them as mocha's stats.
import { spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { build } from 'esbuild';
import { chromiumArgs, ensureChromium } from './editor/chromium.mjs';
import { installEditor } from './editor/install.mjs';
import { serveEditor } from './editor/serve.mjs';

const root = fileURLToPath(new URL('..', import.meta.url)).replace(/\/$/, '');
const { values: options } = parseArgs({
  options: { report: { type: 'string' }, grep: { type: 'string' }, only: { type: 'string' } },
});
const wanted = (part) => options.only === undefined || options.only === part;
const patience = 420_000;
const say = (line) => console.error(line);

const work = mkdtempSync(join(tmpdir(), 'washboard-editor-test-'));
const counts = { passes: 0, failures: 0 };
const add = ({ passes, failures }) => {
  counts.passes += passes;
  counts.failures += failures;
};
try {
  if (!existsSync(join(root, 'dist', 'extension.cjs')))
    throw new Error('dist/ is not built; run `npm run build` first.');
  if (wanted('suite')) add(await runSuite());
  if (wanted('packed')) add(await runPacked('newest'));
  // Fetched only when it is asked for: it is another 270 MB.
  if (options.only === 'oldest') add(await runPacked('oldest'));
  if (wanted('ui')) add(await runPageTests('ui'));
  // The editor without its server takes a minute to start, and a busy machine many: when it is asked for.
  if (options.only === 'web') add(await runPageTests('web'));
} catch (error) {
  counts.failures += 1;
  console.log(`Error: ${error.message}`);
} finally {
  rmSync(work, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
}
if (options.report) writeFileSync(options.report, JSON.stringify({ stats: counts }));
console.log(`${counts.passes} passed, ${counts.failures} failed`);
process.exit(counts.failures === 0 && counts.passes > 0 ? 0 : 1);

/** Runs the suite in the first editor that can be started, and says which that was. */
async function runSuite() {
  const suite = await bundleSuite('suite');
  const report = join(work, 'suite.json');
  const workspace = suiteWorkspace();
  const env = { TEST_REPORT: report, ...(options.grep && { TEST_GREP: options.grep }) };
  const desktop = await desktopEditor();
  if (desktop) {
    say(`Extension host tests in the desktop editor ${desktop}`);
    await runInDesktop(desktop, { suite, workspace, env });
  } else {
    say('Extension host tests in the served editor');
    await runInServed({ suite, workspace, env, report });
  }
  return countsOf(report);
}

function countsOf(report) {
  if (!existsSync(report)) throw new Error('the extension host ended without a report.');
  const { stats, passes, failures } = JSON.parse(readFileSync(report, 'utf8'));
  for (const title of passes) console.log(`  ✔ ${title}`);
  for (const { title, error } of failures) console.log(`  ✘ ${title}\n${error.replace(/^/gm, '      ')}`);
  return stats;
}

/** One CommonJS file: the extension host of every editor can load that. */
async function bundleSuite(name) {
  const outfile = join(root, 'out', `editor-${name}`, 'index.cjs');
  const entryPoints = [join(root, 'test', 'editor', name, 'index.ts')];
  // Mocha is found in node_modules from there.
  await build({
    entryPoints,
    outfile,
    bundle: true,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    external: ['vscode', 'mocha'],
    logLevel: 'warning',
  });
  return outfile;
}

/** Nasty and refused files under the notebook's suffix, and a notebook to run. */
function suiteWorkspace() {
  const workspace = join(work, 'workspace');
  for (const kind of ['nasty', 'refused']) {
    const from = join(root, 'test', 'notebook', 'fixtures', kind);
    mkdirSync(join(workspace, kind), { recursive: true });
    for (const name of readdirSync(from))
      cpSync(join(from, name), join(workspace, kind, name.replace(/\.md$/, '.washboard.md')));
  }
  const cells = ['a = 3 N/mm\nb = 6 N/mm\nseries(a, b) in N/mm', 'misspelt ='];
  const text = cells.map((cell) => `\`\`\`washboard\n${cell}\n\`\`\`\n`).join('\n');
  writeFileSync(join(workspace, 'springs.washboard.md'), `# Springs\n\n${text}`);
  return workspace;
}

/** The desktop editor to use, or null. Only a wish can make this download one, as it needs a display and 150 MB. */
async function desktopEditor() {
  const named = process.env.VSCODE_EXECUTABLE;
  if (named) {
    if (!existsSync(named)) throw new Error(`VSCODE_EXECUTABLE is ${named}, and there is no such program.`);
    return named;
  }
  if (process.env.WASHBOARD_DESKTOP !== '1') return null;
  const { downloadAndUnzipVSCode } = await import('@vscode/test-electron');
  const { SilentReporter } = await import('@vscode/test-electron/out/progress.js').catch(() => ({}));
  const limit = new Promise((resolve) => setTimeout(resolve, 120_000, null).unref());
  const reporter = SilentReporter ? { reporter: new SilentReporter() } : {};
  const got = await Promise.race([downloadAndUnzipVSCode({ ...reporter }).catch(() => null), limit]);
  if (!got) say('No desktop editor could be downloaded; going on with the served one.');
  return got;
}

async function runInDesktop(vscodeExecutablePath, { suite, workspace, env }) {
  const { runTests } = await import('@vscode/test-electron');
  const launchArgs = [
    workspace,
    '--disable-extensions',
    '--disable-workspace-trust',
    '--skip-welcome',
    '--no-sandbox',
    `--user-data-dir=${join(work, 'user')}`,
  ];
  // A failing test makes this throw too; the report tells.
  await runTests({
    vscodeExecutablePath,
    extensionDevelopmentPath: root,
    extensionTestsPath: suite,
    launchArgs,
    extensionTestsEnv: env,
  }).catch((error) => say(`The desktop editor: ${error.message ?? error}`));
}

/** A study from beginning to end with the packed extension, installed into an editor that knows nothing else of this project. */
async function runPacked(which) {
  say(`The packed extension, installed into the ${which} served editor`);
  const vsix = join(work, 'washboard.vsix');
  await run(process.execPath, [join(root, 'scripts', 'package.mjs'), '-o', vsix]);
  const { node, server } = await installEditor(say, which);
  const [extensionsDir, data] = ['extensions', 'installing'].map((name) => join(work, which, name));
  // The oldest one does not make it by itself.
  mkdirSync(extensionsDir, { recursive: true });
  const folders = ['--extensions-dir', extensionsDir, '--server-data-dir', data];
  await run(node, [server, '--accept-server-license-terms', ...folders, '--install-extension', vsix]);
  const workspace = join(work, which, 'workspace');
  mkdirSync(workspace, { recursive: true });
  const report = join(work, `${which}.json`);
  const env = { TEST_REPORT: report };
  // What the editor is told to develop is an empty extension: that makes it run a suite.
  const extension = join(work, 'empty');
  mkdirSync(extension, { recursive: true });
  const manifest = { name: 'empty', publisher: 'nobody', version: '0.0.1', engines: { vscode: '^1.100.0' } };
  writeFileSync(join(extension, 'package.json'), JSON.stringify(manifest));
  await runInServed({
    suite: await bundleSuite('packed'),
    limit: 3 * patience,
    workspace,
    env,
    report,
    extension,
    extensionsDir,
    which,
  });
  return countsOf(report);
}

function run(program, args) {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] });
    let said = '';
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk) => (said += chunk));
    child.on('error', reject);
    child.on('close', (code) =>
      code === 0 ? resolve() : reject(new Error(`${args.join(' ')} ended with ${code}: ${said.slice(-2000)}`)),
    );
  });
}

async function runInServed({ report, limit = patience, ...served }) {
  const executablePath = ensureChromium(say);
  const editor = await serveEditor({ ...served, say });
  const { chromium } = await import('playwright-core');
  const browser = await chromium.launch({ executablePath, args: chromiumArgs });
  try {
    const page = await browser.newPage({ viewport: { width: 1400, height: 1000 } });
    page.setDefaultTimeout(patience);
    await page.goto(editor.url);
    const deadline = Date.now() + limit;
    while (!existsSync(report)) {
      if (Date.now() > deadline)
        throw new Error(`the extension host gave no report in ${limit / 1000} s. The end of the log:\n${editor.log()}`);
      await new Promise((resolve) => setTimeout(resolve, 200));
    }
  } finally {
    await browser.close();
    await editor.stop();
  }
}

/** The tests of the page: mocha, in a process of its own, as they start editors themselves. */
async function runPageTests(which) {
  const folder = join(root, 'test', 'editor', which);
  if (!existsSync(folder) || !readdirSync(folder).some((name) => name.endsWith('.test.ts')))
    throw new Error('there are no tests of the page.');
  say(`Tests of the page in the ${which === 'web' ? 'editor without a server' : 'served editor'}`);
  ensureChromium(say);
  const report = join(work, `${which}.json`);
  const args = [
    join(root, 'node_modules', 'mocha', 'bin', 'mocha.js'),
    `test/editor/${which}/**/*.test.ts`,
    '--timeout',
    String(patience),
  ];
  args.push('--reporter', join(root, 'scripts', 'editor', 'reporter.cjs'), '--reporter-option', `output=${report}`);
  if (options.grep) args.push('--grep', options.grep);
  const code = await new Promise((resolve) =>
    spawn(process.execPath, args, { cwd: root, stdio: 'inherit' }).on('close', resolve),
  );
  if (!existsSync(report)) throw new Error(`the tests of the page ended with ${code} before they could be counted.`);
  return JSON.parse(readFileSync(report, 'utf8')).stats;
}

import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { chromium, type Browser, type Page } from 'playwright-core';
import { chromiumArgs, ensureChromium } from '../../../scripts/editor/chromium.mjs';
import { installEditor } from '../../../scripts/editor/install.mjs';
import { serveWeb, type WebEditor } from '../../../scripts/editor/serveWeb.mjs';

const root = fileURLToPath(new URL('../../../', import.meta.url)).replace(/\/$/, '');
/** The window alone takes half a minute to start on a busy machine. */
const patience = 600_000;

interface CellState {
  readonly success?: boolean;
  readonly mimes: readonly string[];
}

/** What the editor counts otherwise, and what only git or the prose of the file tells. */
const elsewhere = new Set(['line', 'age', 'committed', 'prose']);

/** Fails where two results are not the same, numbers to their last digit. */
function assertSame(found: unknown, expected: unknown, where = 'results'): void {
  if (typeof found !== 'object' || typeof expected !== 'object' || found === null || expected === null)
    return assert.equal(found, expected, where);
  const [own, others] = [found, expected].map((one) => Object.entries(one).filter(([key]) => !elsewhere.has(key)));
  assert.deepEqual(
    own.map(([key]) => key),
    others.map(([key]) => key),
    where,
  );
  own.forEach(([key, value], at) => assertSame(value, others[at][1], `${where}.${key}`));
}

/** The helper as an extension of the browser. */
async function helperIn(folder: string): Promise<string> {
  const helper = join(folder, 'helper');
  const own = join(root, 'test/editor/web/helper');
  cpSync(join(own, 'package.json'), join(helper, 'package.json'));
  await build({
    entryPoints: [join(own, 'index.ts')],
    outfile: join(helper, 'helper.js'),
    bundle: true,
    format: 'cjs',
    platform: 'browser',
    external: ['vscode'],
    logLevel: 'warning',
  });
  return helper;
}

describe('the sample study in an editor that runs in the browser alone', function () {
  this.timeout(patience);
  const notebook = 'three-pads.washboard.md';
  let folder: string;
  let workspace: string;
  let editor: WebEditor;
  let browser: Browser;
  let page: Page;
  const said: string[] = [];

  before(async () => {
    folder = mkdtempSync(join(tmpdir(), 'washboard-web-'));
    workspace = join(folder, 'work');
    for (const name of [notebook, 'three-pads', 'three-pads.record.json'])
      cpSync(join(root, 'samples', name), join(workspace, name), { recursive: true });
    editor = await serveWeb({ workspace, extension: root, helper: await helperIn(folder), say: console.error });
    browser = await chromium.launch({ executablePath: ensureChromium(console.error), args: chromiumArgs });
    page = await browser.newPage({ viewport: { width: 1400, height: 1000 } });
    page.on('requestfailed', (request) => said.push(`failed: ${request.url()} ${request.failure()?.errorText ?? ''}`));
    page.on('console', (message) => said.push(`${message.type()}: ${message.text()}`));
    page.setDefaultTimeout(patience);
    await page.goto(editor.url, { waitUntil: 'commit' });
  });
  after(async () => {
    await browser.close();
    await editor.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  /** What the helper tells under a name. */
  async function told<T>(name: string): Promise<T> {
    // Without a server the editor asks of each notebook whether its authors are trusted.
    const trusting = page.getByRole('button', { name: 'Open Notebook' });
    for (const end = Date.now() + patience; Date.now() < end; await new Promise((go) => setTimeout(go, 100))) {
      if (await trusting.isVisible()) await trusting.click();
      const report = editor.report(name);
      if (report !== undefined) return JSON.parse(report) as T;
      const end = editor.report('end');
      assert.ok(end === undefined || !end.includes('"ok":false'), end);
    }
    throw new Error(`nothing was told of ${name}. The page said:\n${said.slice(-30).join('\n')}`);
  }

  const byCommandLine = (node: string): unknown =>
    JSON.parse(
      execFileSync(node, [join(root, 'dist/washboard.mjs'), 'run', '--json', join(root, 'samples', notebook)], {
        encoding: 'utf8',
        maxBuffer: 1e9,
      }),
    );

  it('runs to its end', async () => {
    const cells = await told<CellState[]>('cells');
    assert.ok(cells.length > 5);
    assert.deepEqual(
      cells.filter(({ success }) => success !== true),
      [],
    );
    assert.ok(cells.some(({ mimes }) => mimes.includes('application/vnd.washboard.output+json')));
  });

  it('gives the results of the command line, to the last digit, on this Node and on that of the editor', async () => {
    const results = await told('results');
    const here = byCommandLine(process.execPath);
    assertSame(results, here);
    assert.deepEqual(byCommandLine((await installEditor()).node), here);
  });

  it('draws its charts', async () => {
    await told('cells');
    const drawn = async (): Promise<boolean> => {
      for (const frame of page.frames())
        if (
          (await frame
            .locator('svg.marks')
            .count()
            .catch(() => 0)) > 0
        )
          return true;
      return false;
    };
    for (const end = Date.now() + 60_000; Date.now() < end && !(await drawn());)
      await new Promise((go) => setTimeout(go, 200));
    assert.ok(await drawn(), said.slice(-30).join('\n'));
  });

  it('runs an edited trim anew, and saves the edit and nothing else', async () => {
    const { before, after } = await told<{ before: string; after: string }>('edit');
    const { cell, results } = await told<{ cell: CellState; results: unknown }>('edited');
    assert.equal(cell.success, true);
    assert.notDeepEqual(results, await told('results'));
    assert.equal(await told('saved'), true);
    assert.notEqual(after, before);
    const text = readFileSync(join(root, 'samples', notebook), 'utf8');
    assert.ok(text.includes(before));
    assert.equal(
      readFileSync(join(workspace, notebook), 'utf8'),
      text.replace(before, () => after),
    );
  });

  it('copies the sample into the folder, and opens it', async () => {
    assert.equal(await told('sample'), '/study/washboard-sample/three-pads.washboard.md');
    const files = JSON.parse(readFileSync(join(root, 'samples/files.json'), 'utf8')) as string[];
    for (const file of files)
      assert.ok(
        readFileSync(join(workspace, 'washboard-sample', file)).equals(readFileSync(join(root, 'samples', file))),
        file,
      );
  });

  it('runs beside the extension where no worker may be made, with the same results', async () => {
    const { cells, results } = await told<{ cells: CellState[]; results: unknown }>('beside');
    assert.deepEqual(
      cells.filter(({ success }) => success !== true),
      [],
    );
    assertSame(results, await told('results'));
  });

  it('stops there by a message, and leaves no error', async () => {
    const { sharesMemory } = await told<{ sharesMemory: boolean }>('beside');
    assert.equal(sharesMemory, false, 'memory was shared: nothing was told by a message');
    const cells = await told<CellState[]>('besideStopped');
    assert.equal(cells[0].success, true);
    assert.ok(
      cells.some(({ success }) => success === undefined),
      'it ran to its end',
    );
    assert.ok(cells.every(({ success }) => success !== false));
  });
});

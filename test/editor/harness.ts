import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type Page } from 'playwright-core';
import { chromiumArgs, ensureChromium } from '../../scripts/editor/chromium.mjs';
import { serveEditor, type ServedEditor } from '../../scripts/editor/serve.mjs';
import { collectErrors } from './errors.ts';
import { innerFrame, patience } from './frames.ts';
import { OpenNotebook } from './openNotebook.ts';

export { OpenNotebook, patience };

export type Theme = keyof ServedEditor['themes'];

export interface WorkbenchOptions {
  /** A folder to copy into the workspace; the original is never touched. */
  readonly from?: string;
  /** Files to write into the workspace: path below it, and content. */
  readonly files?: Readonly<Record<string, string | Uint8Array>>;
  readonly settings?: Readonly<Record<string, unknown>>;
  /** The extension under test; this project if left out. */
  readonly extension?: string | null;
  readonly extensionsDir?: string;
  readonly theme?: Theme;
  /** Whether the workspace is one that nobody trusts. */
  readonly restricted?: boolean;
}

/** Text that a test types all at once stays as it is. */
const literalTyping = {
  'editor.autoIndent': 'none',
  'editor.autoClosingBrackets': 'never',
  'editor.autoClosingQuotes': 'never',
};

/** A served editor with a temporary workspace open in a Chromium. */
export class Workbench {
  readonly page: Page;
  /** The workspace's folder. */
  readonly folder: string;
  readonly #editor: ServedEditor;
  readonly #browser: Browser;
  readonly #errors: readonly string[];

  private constructor(editor: ServedEditor, browser: Browser, page: Page, errors: readonly string[]) {
    this.#editor = editor;
    this.#browser = browser;
    this.#errors = errors;
    this.page = page;
    this.folder = editor.workspace;
  }

  /** Serves the editor and opens the workspace; the extensions have been found when it returns. */
  static async open(options: WorkbenchOptions = {}): Promise<Workbench> {
    const parent = mkdtempSync(join(tmpdir(), 'washboard-workspace-'));
    const workspace = join(parent, options.from === undefined ? 'workspace' : basename(options.from));
    const remove = (): void => rmSync(parent, { recursive: true, force: true });
    mkdirSync(workspace, { recursive: true });
    if (options.from !== undefined) cpSync(options.from, workspace, { recursive: true });
    for (const [path, content] of Object.entries(options.files ?? {})) {
      mkdirSync(dirname(join(workspace, path)), { recursive: true });
      writeFileSync(join(workspace, path), content);
    }
    const { extension, extensionsDir, restricted } = options;
    const settings = { ...literalTyping, ...options.settings };
    const given = Object.fromEntries(
      Object.entries({ settings, extension, extensionsDir, restricted }).filter(([, value]) => value !== undefined),
    );
    const executablePath = ensureChromium(console.error);
    const editor = await serveEditor({ workspace, ...given, say: console.error }).catch((error: unknown) => {
      remove();
      throw error;
    });
    if (options.theme !== undefined) writeTheme(workspace, editor.themes[options.theme]);
    const browser = await chromium.launch({ executablePath, args: chromiumArgs }).catch(async (error: unknown) => {
      await editor.stop();
      remove();
      throw error;
    });
    const page = await browser.newPage({ viewport: { width: 1400, height: 1000 } });
    page.setDefaultTimeout(patience);
    const workbench = new Workbench(editor, browser, page, collectErrors(page));
    try {
      // All of the window's program comes with it, which a busy machine is slow to hand out.
      await page.goto(editor.url, { timeout: 3 * patience });
      await workbench.#ready();
    } catch (error) {
      await workbench.close();
      throw error;
    }
    return workbench;
  }

  async #ready(): Promise<void> {
    await this.page.locator('.monaco-workbench').waitFor();
    // A file that is opened sooner gets the text editor.
    await this.page.waitForFunction(() => performance.getEntriesByName('code/didLoadExtensions').length > 0);
  }

  /** Opens a notebook as a user does, by a double click in the explorer; folders on the way are opened too. */
  async openNotebook(path: string): Promise<OpenNotebook> {
    await this.openFile(path);
    return this.notebookInView();
  }

  /** The notebook of the active editor. */
  async notebookInView(): Promise<OpenNotebook> {
    const notebook = new OpenNotebook(this.page);
    await notebook.ready();
    return notebook;
  }

  /** Double-clicks a file in the explorer and waits until it is the active editor. */
  async openFile(path: string): Promise<void> {
    const explorer = this.page.locator('.explorer-folders-view');
    const names = path.split('/');
    for (const [at, name] of names.entries()) {
      const row = explorer.locator('.monaco-list-row').filter({ has: this.page.getByText(name, { exact: true }) });
      await row.first().waitFor();
      if (at === names.length - 1) await row.first().dblclick();
      else if ((await row.first().getAttribute('aria-expanded')) !== 'true') await row.first().click();
    }
    await this.page
      .locator('.tab.active')
      .filter({ hasText: names[names.length - 1] })
      .waitFor();
  }

  /** Chooses from the menu of a file or folder that is seen in the explorer. */
  async explorerMenu(on: string, item: string): Promise<void> {
    const rows = this.page.locator('.explorer-folders-view .monaco-list-row');
    await rows.filter({ hasText: on }).first().click({ button: 'right' });
    // The editor takes a click on a menu that has just come for the end of the one that called it.
    const entry = this.page.locator('.monaco-menu').getByText(item);
    await entry.waitFor();
    await until(async () => {
      await entry.click({ timeout: 1000 }).catch(() => undefined);
      return !(await entry.isVisible());
    }, 'a menu that was left');
  }

  /** Loads the page anew; the editor opens again what was open. */
  async reload(): Promise<void> {
    // It writes down what is open a moment after it was opened, and what is not written is not opened again.
    await this.page.waitForTimeout(3000);
    await this.page.reload();
    await this.#ready();
  }

  /** Runs a command by its title in the palette. */
  async command(title: string): Promise<void> {
    await this.page.keyboard.press('F1');
    const input = this.page.locator('.quick-input-widget input');
    await input.waitFor();
    await input.fill(`>${title}`);
    await this.page.locator('.quick-input-list .monaco-list-row').filter({ hasText: title }).first().waitFor();
    await this.page.keyboard.press('Enter');
  }

  /** The messages that the editor showed, read from its notification centre. */
  async messages(): Promise<string[]> {
    const list = this.page.locator('.notifications-center .notification-list-item-message');
    await this.page.locator('#status\\.notifications').click();
    await this.page.locator('.notifications-center').waitFor();
    const texts = await list.allTextContents();
    await this.page.keyboard.press('Escape');
    return texts;
  }

  /** Changes the colour theme and waits until the workbench wears it, and a frame in it: that of the notebook unless said. */
  async theme(theme: Theme, frame = innerFrame(this.page)): Promise<void> {
    writeTheme(this.folder, this.#editor.themes[theme]);
    const worn = { light: 'vs', dark: 'vs-dark', 'high-contrast': 'hc-black', 'high-contrast-light': 'hc-light' }[
      theme
    ];
    await this.page.locator(`.monaco-workbench.${worn}`).waitFor();
    // A notebook that is open tells its outputs, which draw themselves anew.
    const body = `body[data-vscode-theme-kind="vscode-${theme}"]`;
    if ((await this.page.locator('iframe.webview.ready').count()) > 0)
      await frame.locator(body).waitFor({ state: 'attached' });
  }

  /** The errors on the consoles of the page and of its frames, without the editor's own noise. */
  get errors(): readonly string[] {
    return this.#errors;
  }

  async screenshot(path: string): Promise<void> {
    mkdirSync(dirname(path), { recursive: true });
    await this.page.screenshot({ path });
  }

  /** Reads a file of the workspace. */
  read(path: string): Uint8Array {
    return readFileSync(join(this.folder, path));
  }

  /** The end of the server's log. */
  log(): string {
    return this.#editor.log();
  }

  async close(): Promise<void> {
    await this.#browser.close();
    await this.#editor.stop();
    rmSync(dirname(this.folder), { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}

/** Asks until it holds. */
export async function until(holds: () => Promise<boolean>, what: string | (() => Promise<string>)): Promise<void> {
  const deadline = Date.now() + patience / 2;
  while (!(await holds())) {
    if (Date.now() > deadline) throw new Error(`waited in vain for ${typeof what === 'string' ? what : await what()}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/** Written into the workspace: a change of the user settings on disk is not noticed by a served editor. */
function writeTheme(workspace: string, id: string): void {
  const file = join(workspace, '.vscode', 'settings.json');
  const before = existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as Record<string, unknown>) : {};
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, JSON.stringify({ ...before, 'workbench.colorTheme': id }, null, 2));
}

/** This project's folder. */
export const projectFolder = fileURLToPath(new URL('../..', import.meta.url));

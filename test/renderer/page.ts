import { build } from 'esbuild';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type Page } from 'playwright-core';
import { chromiumArgs, ensureChromium } from '../../scripts/editor/chromium.mjs';
import { apartOfRenderer, denseStyles, rendererApart } from '../../scripts/build/apart.mjs';
import type { Asked, Told } from '../../src/charts/handleMessages.ts';
import type { Output } from '../../src/charts/output.ts';

/** A page that stands in for a notebook's webview: the editor's variables and body, and a strict content policy. */
export interface RendererPage {
  readonly page: Page;
  /** What the browser complained of. */
  readonly complaints: string[];
  /** Draws an output, or anything else, into an element of that id; an earlier one of the id is replaced. */
  render(id: string, output: unknown): Promise<void>;
  dispose(id?: string): Promise<void>;
  /** What outputs asked of the editor since this was last asked, besides whether they are out of date. */
  asked(): Promise<readonly Exclude<Asked, { type: 'shown' }>[]>;
  /** Tells the charts something, as the editor does. */
  tell(message: Told): Promise<void>;
  setTheme(kind: string, colours: Readonly<Record<string, string>>): Promise<void>;
  close(): Promise<void>;
}

export const dark = { 'editor-background': '#1f1f1f', 'editor-foreground': '#cccccc' };
export const light = { 'editor-background': '#ffffff', 'editor-foreground': '#3b3b3b' };

// A page that counts as safe, as the editor's are: only these have a clipboard.
const origin = 'http://renderer.localhost';
const policy = `default-src 'none'; script-src ${origin} 'unsafe-inline'; style-src 'unsafe-inline'; img-src data:`;

const html = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>outputs</title>
<meta http-equiv="Content-Security-Policy" content="${policy}"></head><body style="margin:8px"></body></html>`;

/** What stands in for the editor's side: one element an id, the API in the open. */
const host = `import { activate } from '${origin}/renderer.js';
window.asked = [];
const hearing = [];
window.tell = (message) => hearing.forEach((hear) => hear(message));
let state;
const api = activate({ setState: (next) => { state = next; }, getState: () => state, postMessage: (message) => window.asked.push(message), onDidReceiveMessage: (hear) => { hearing.push(hear); } });
window.draw = (id, data) => {
  let place = document.getElementById(id);
  if (!place) { place = document.createElement('div'); place.id = id; document.body.append(place); }
  const json = () => { if (data === 'not json') throw new SyntaxError('bad JSON'); return data; };
  return api.renderOutputItem({ id, mime: 'x', json, metadata: { washboard: 'of ' + id } }, place, new AbortController().signal);
};
window.dispose = (id) => api.disposeOutputItem(id);`;

let bundle: Promise<string> | undefined;

/** What lays handles over its charts, as it is shipped. */
export function handlesBundle(): Promise<string> {
  return bundled(rendererApart);
}

/** The renderer as it is shipped: one minified module. */
export function rendererBundle(): Promise<string> {
  return (bundle ??= bundled('src/renderer/index.ts'));
}

function bundled(entry: string): Promise<string> {
  return build({
    entryPoints: [fileURLToPath(new URL(`../../${entry}`, import.meta.url))],
    plugins: [apartOfRenderer, denseStyles],
    bundle: true,
    minify: true,
    write: false,
    format: 'esm',
    platform: 'browser',
    target: 'es2022',
  }).then(({ outputFiles }) => outputFiles[0].text);
}

/**
 * The page of a block of tests, opened before its first one and closed behind its last; nothing may be asked of it earlier.
 *
 * @param colours of a dark theme or a light one
 */
export function pageOfTests(colours: typeof dark | typeof light = dark): RendererPage {
  const host = {} as RendererPage;
  before(async () => {
    Object.assign(host, await openRendererPage());
    await host.setTheme(colours === light ? 'vscode-light' : 'vscode-dark', colours);
  });
  after(() => host.close());
  return host;
}

async function openRendererPage(): Promise<RendererPage> {
  const scripts: Readonly<Record<string, string>> = {
    '/renderer.js': await rendererBundle(),
    '/handles.js': await handlesBundle(),
    '/host.js': host,
  };
  const browser: Browser = await chromium.launch({ executablePath: ensureChromium(), args: chromiumArgs });
  const page = await browser.newPage({ viewport: { width: 820, height: 900 } });
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.route(`${origin}/**`, (route) => {
    const { pathname } = new URL(route.request().url());
    if (pathname === '/') return route.fulfill({ contentType: 'text/html', body: html });
    if (pathname === '/favicon.ico') return route.fulfill({ status: 204 });
    return route.fulfill({ contentType: 'text/javascript', body: scripts[pathname] });
  });
  await page.goto(origin);
  await page.addScriptTag({ type: 'module', url: `${origin}/host.js` });
  return {
    page,
    complaints,
    // The policy forbids code from text, and Playwright's own waiting is that: so it is asked for here by hand.
    render: (id, output) =>
      page.evaluate(([at, data]) => (window as unknown as Host).draw(at as string, data), [id, output]),
    dispose: (id) => page.evaluate((at) => (window as unknown as Host).dispose(at), id),
    asked: async () => {
      const all = await page.evaluate(() => (window as unknown as Host).asked.splice(0));
      return all.filter((one) => one.type !== 'shown');
    },
    tell: (message) => page.evaluate((told) => (window as unknown as Host).tell(told), message),
    setTheme: (kind, colours) => page.evaluate(applyTheme, [kind, colours] as const),
    close: () => browser.close(),
  };
}

interface Host {
  draw(id: string, data: unknown): Promise<void>;
  dispose(id: string | undefined): void;
  asked: Asked[];
  tell(message: Told): void;
}

function applyTheme([kind, colours]: readonly [string, Readonly<Record<string, string>>]): Promise<void> {
  document.body.className = kind;
  document.body.dataset['vscodeThemeKind'] = kind;
  for (const [name, colour] of Object.entries(colours))
    document.documentElement.style.setProperty(`--vscode-${name}`, colour);
  document.body.style.background = colours['editor-background'];
  return new Promise((resolve) => setTimeout(resolve, 300));
}

export type { Output };

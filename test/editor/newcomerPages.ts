/**
 * Pictures of every page that a newcomer meets, in four themes and two widths, to be looked at: `npm run build && npx tsx test/editor/newcomerPages.ts`
 * writes them to `out/screenshots/newcomer`. Pages can be named: `… newcomerPages.ts welcome look`.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { chromiumArgs, ensureChromium } from '../../scripts/editor/chromium.mjs';
import { recording } from '../engine/memoryFiles.ts';
import { OpenNotebook, projectFolder, Workbench, type Theme } from './harness.ts';

const pictures = join(projectFolder, 'out', 'screenshots', 'newcomer');
const themes = ['light', 'dark', 'high-contrast', 'high-contrast-light'] satisfies Theme[];
const widths = [800, 1280];
const height = 900;

const fence = (text: string): string => `\`\`\`washboard\n${text}\n\`\`\`\n`;
const failing = [
  'ride = load "raw/befor-1.csv"',
  'levels rides',
  'trim (load "raw/before-1.csv") 12..72 s',
  'compare 3 g with 4 s',
];

const files: Readonly<Record<string, string>> = Object.fromEntries(
  [1, 2, 3, 4].flatMap((run) => [
    [`raw/before-${run}.csv`, recording({ seed: run, level: 1 })],
    [`raw/after-${run}.csv`, recording({ seed: 10 + run, level: 0.5 })],
  ]),
);

/** Takes a page as it stands in every theme and width. */
async function everyLook(workbench: Workbench, name: string): Promise<void> {
  const { page } = workbench;
  const frame = page
    .locator('iframe.webview.ready')
    .last()
    .contentFrame()
    .locator('iframe#active-frame')
    .contentFrame();
  for (const theme of themes) {
    await workbench.theme(theme, frame).catch((error: unknown) => console.error(`${name}, ${theme}: ${String(error)}`));
    for (const width of widths) {
      await page.setViewportSize({ width, height });
      await page.waitForTimeout(1500);
      await workbench.screenshot(join(pictures, `${name}-${theme}-${width}.png`));
    }
  }
  await page.setViewportSize({ width: 1280, height });
}

const row = (workbench: Workbench, name: string) =>
  workbench.page.locator('.explorer-folders-view .monaco-list-row').filter({ hasText: name }).first();

/** Each brings its page before the reader, and may take more than one picture. */
const pages: Readonly<Record<string, (workbench: Workbench) => Promise<void>>> = {
  welcome: async (workbench) => {
    await workbench.page.getByText('This folder holds recordings').waitFor();
    await everyLook(workbench, 'welcome');
  },
  walkthrough: async (workbench) => {
    const { page } = workbench;
    await workbench.command('Welcome: Open Walkthrough...');
    await page.keyboard.type('A first vibration study');
    await page.waitForTimeout(1000);
    await page.keyboard.press('Enter');
    const steps = page.locator('.getting-started-step');
    await steps.first().waitFor();
    for (let at = 0; at < (await steps.count()); at++) {
      await steps.nth(at).click();
      await everyLook(workbench, `walkthrough-${at + 1}`);
    }
  },
  look: async (workbench) => {
    await row(workbench, 'raw').click();
    await workbench.explorerMenu('before-1.csv', 'Look at Recording');
    const frame = workbench.page.locator('iframe.webview.ready').last().contentFrame().locator('iframe#active-frame');
    await frame.contentFrame().getByRole('link', { name: 'Use in a Notebook' }).waitFor();
    await everyLook(workbench, 'look');
  },
  sheet: async (workbench) => {
    await workbench.explorerMenu('raw', 'Write a Run Sheet');
    await workbench.page.locator('.tab.active').filter({ hasText: 'runs.csv' }).waitFor();
    await everyLook(workbench, 'sheet');
  },
  starter: async (workbench) => {
    await workbench.command('Washboard: New Vibration Notebook');
    await workbench.page.locator('.tab.active').filter({ hasText: 'study.washboard.md' }).waitFor();
    const notebook = new OpenNotebook(workbench.page);
    await notebook.ready();
    await everyLook(workbench, 'starter');
    await notebook.runAll();
    const count = await notebook.count();
    await notebook.reveal(count - 1);
    await workbench.page.waitForTimeout(8000);
    await notebook.reveal(Math.floor(count / 2));
    await everyLook(workbench, 'starter-run');
    await notebook.reveal(count - 1);
    await everyLook(workbench, 'starter-end');
  },
  failures: async (workbench) => {
    const text = `# What goes wrong\n\n${failing.map(fence).join('\n')}`;
    writeFileSync(join(workbench.folder, 'failing.washboard.md'), text);
    const notebook = await workbench.openNotebook('failing.washboard.md');
    await notebook.runAll();
    await notebook.ended(failing.length);
    await notebook.reveal(0);
    await everyLook(workbench, 'failures');
  },
  load: async (workbench) => {
    const notebook = await workbench.openNotebook('failing.washboard.md');
    await notebook.reveal(0);
    await workbench.page.getByRole('button', { name: 'Load' }).locator('visible=true').first().click();
    await workbench.page.getByText('Insert Load of Recordings').first().waitFor();
    await everyLook(workbench, 'load');
    await workbench.page.keyboard.press('Escape');
  },
  settings: async (workbench) => {
    await workbench.command('Preferences: Open Settings (UI)');
    await workbench.page.locator('.settings-editor').waitFor();
    // Until the list has come, letters that are typed are lost.
    await workbench.page.locator('.settings-editor .settings-tree-container .monaco-list-row').first().waitFor();
    await workbench.page.keyboard.type('@ext:washboard-notebooks.washboard', { delay: 60 });
    await workbench.page.getByText('Update Dependents').first().waitFor();
    await everyLook(workbench, 'settings');
  },
};

/** The report is a page of its own, which goes by the reader's system. */
async function report(): Promise<void> {
  const target = join(pictures, 'report.html');
  const notebook = join(projectFolder, 'samples', 'three-pads.washboard.md');
  const args = [join(projectFolder, 'dist', 'washboard.mjs'), 'report', notebook, '--out', target, '--force'];
  spawnSync(process.execPath, args, { stdio: 'inherit' });
  const browser = await chromium.launch({ executablePath: ensureChromium(console.error), args: chromiumArgs });
  const looks = {
    light: { colorScheme: 'light' },
    dark: { colorScheme: 'dark' },
    'high-contrast': { colorScheme: 'dark', forcedColors: 'active' },
    'high-contrast-light': { colorScheme: 'light', forcedColors: 'active' },
  } as const satisfies Record<(typeof themes)[number], object>;
  for (const theme of themes)
    for (const width of widths) {
      const page = await browser.newPage({ viewport: { width, height: 1600 }, ...looks[theme] });
      await page.goto(`file://${target}`);
      await page.screenshot({ path: join(pictures, `report-${theme}-${width}.png`) });
      await page.close();
    }
  await browser.close();
}

mkdirSync(pictures, { recursive: true });
const named = process.argv.slice(2);
const isWanted = (name: string): boolean => named.length === 0 || named.includes(name);
if (isWanted('report')) await report();
if (Object.keys(pages).some(isWanted)) {
  // A folder with a notebook is welcomed no more.
  const workbench = await Workbench.open({ files, theme: 'light' });
  try {
    for (const [name, show] of Object.entries(pages)) {
      if (!isWanted(name)) continue;
      await workbench.command('View: Close All Editors');
      await show(workbench).catch((error: unknown) => console.error(`${name}: ${String(error)}`));
    }
  } finally {
    await workbench.close();
  }
}

/**
 * Every chart of made-up values in every theme, on one page and as pictures, to be looked at:
 * `npx tsx scripts/charts/gallery.ts OUT-FOLDER [WIDTH]` (needs a chromium; CHROMIUM names it).
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import type { ChartPart } from '../../src/charts/output.ts';
import { themes, type Theme } from '../../src/charts/theme.ts';
import { toSvg } from '../../src/report/svg.ts';
import { gallery } from './values.ts';

const [folder = 'out/gallery', width = '720', only = ''] = process.argv.slice(2);
mkdirSync(folder, { recursive: true });

async function page(theme: Theme, charts: readonly { name: string; chart: ChartPart }[]): Promise<string> {
  const figures: string[] = [];
  for (const { name, chart } of charts) {
    const svg = await toSvg(chart, theme, Number(width));
    writeFileSync(join(folder, `${name}.${theme.name}.svg`), svg);
    figures.push(`<figure id="${name}">${svg}<figcaption>${name}, ${chart.height} px kept</figcaption></figure>`);
  }
  const style = `body{background:${theme.background};color:${theme.ink};font:12px sans-serif;margin:12px}figure{margin:0 0 24px}`;
  return `<!doctype html><meta charset="utf-8"><title>${theme.name}</title><style>${style}</style>${figures.join('\n')}`;
}

const browser = await chromium.launch({
  executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
try {
  const charts = gallery().filter(({ name }) => name.includes(only));
  for (const theme of Object.values(themes)) {
    const html = await page(theme, charts);
    writeFileSync(join(folder, `${theme.name}.html`), html);
    const tab = await browser.newPage({ viewport: { width: Number(width) + 40, height: 900 } });
    await tab.setContent(html);
    await tab.screenshot({ path: join(folder, `${theme.name}.png`), fullPage: true });
    for (const { name } of charts)
      await tab.locator(`#${name}`).screenshot({ path: join(folder, `${name}.${theme.name}.png`) });
    await tab.close();
  }
  console.log(`${charts.length} charts in ${folder}`);
} finally {
  await browser.close();
}

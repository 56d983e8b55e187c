import { writeFileSync } from 'node:fs';
import { chromium } from 'playwright-core';

/** A picture to draw: what it looks like and where it goes. */
export interface Picture {
  readonly svg: string;
  readonly file: URL;
  readonly width: number;
  readonly height: number;
  /** Device pixels a px; 1 if not given. */
  readonly scale?: number;
}

/** Draws SVG into PNG files with the Chromium named by CHROMIUM, else the system's. */
export async function draw(pictures: readonly Picture[]): Promise<void> {
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox'],
  });
  try {
    for (const { svg, file, width, height, scale = 1 } of pictures) {
      const page = await browser.newPage({ viewport: { width, height }, deviceScaleFactor: scale });
      await page.setContent(`<style>body{margin:0}svg{display:block}</style>${svg}`);
      writeFileSync(file, await page.screenshot({ omitBackground: true }));
      await page.close();
    }
  } finally {
    await browser.close();
  }
}

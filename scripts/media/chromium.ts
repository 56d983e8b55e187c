import { writeFileSync } from 'node:fs';
import { chromium, type Page } from 'playwright-core';
import { paletteImage, type Pixels } from './palette.ts';

/** A picture to draw: what it looks like and where it goes. */
export interface Picture {
  readonly svg: string;
  readonly file: URL;
  readonly width: number;
  readonly height: number;
  /** Device pixels a px; 1 if not given. */
  readonly scale?: number;
  /** At most so many; 96 if not given. */
  readonly colours?: number;
}

/** Draws SVG into PNG files of few colours with the Chromium named by CHROMIUM, else the system's. */
export async function draw(pictures: readonly Picture[]): Promise<void> {
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox'],
  });
  try {
    for (const { svg, file, width, height, scale = 1, colours = 96 } of pictures) {
      const page = await browser.newPage({ viewport: { width, height }, deviceScaleFactor: scale });
      await page.setContent(`<style>body{margin:0}svg{display:block}</style>${svg}`);
      const picture = await page.screenshot({ omitBackground: true });
      writeFileSync(file, paletteImage(await pixelsOf(page, picture), colours));
      await page.close();
    }
  } finally {
    await browser.close();
  }
}

/** The pixels of a PNG, as the browser reads them. */
async function pixelsOf(page: Page, png: Uint8Array): Promise<Pixels> {
  const address = `data:image/png;base64,${Buffer.from(png).toString('base64')}`;
  const { base64, width, height } = await page.evaluate(async (source) => {
    const image = new Image();
    image.src = source;
    await image.decode();
    const canvas = new OffscreenCanvas(image.width, image.height);
    const context = canvas.getContext('2d')!;
    context.drawImage(image, 0, 0);
    const { data } = context.getImageData(0, 0, image.width, image.height);
    let text = '';
    for (let n = 0; n < data.length; n += 8192) text += String.fromCharCode(...data.subarray(n, n + 8192));
    return { base64: btoa(text), width: image.width, height: image.height };
  }, address);
  // A copy of its own: the decoder hands out parts of a larger buffer, at any offset.
  return { data: new Uint8Array(Buffer.from(base64, 'base64')), width, height };
}

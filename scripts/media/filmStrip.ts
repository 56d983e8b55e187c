/**
 * Puts the pictures of a drag, which the tests of the served editor take (`node scripts/testEditor.mjs --only ui --grep "picture by picture"`),
 * below each other into one: `npx tsx scripts/media/filmStrip.ts`.
 */
import { readFileSync } from 'node:fs';
import { draw } from './chromium.ts';

const root = new URL('../../', import.meta.url);
/** Before, on the way and after the release: more would be too small to be read in the walkthrough's column. */
const shown = [1, 4, 6];
/** px of one picture in the strip, and of the gap between two. */
const frame = { width: 640, height: 528 };
const gap = 8;

const images = shown.map((picture) => {
  const png = readFileSync(new URL(`out/screenshots/drag-${picture}.png`, root)).toString('base64');
  return `<img style="box-sizing:border-box;border:1px solid #b8b8b8" width="${frame.width}" height="${frame.height}" src="data:image/png;base64,${png}">`;
});
const { width } = frame;
const height = shown.length * (frame.height + gap) - gap;
const svg = `<div style="display:grid;gap:${gap}px;background:#fff">${images.join('')}</div>`;
await draw([{ svg, file: new URL('media/walkthrough/drag.png', root), width, height, colours: 24 }]);

/**
 * Puts the pictures of a drag, which the tests of the served editor take (`node scripts/testEditor.mjs --only ui --grep "picture by picture"`),
 * side by side into one: `npx tsx scripts/media/filmStrip.ts`.
 */
import { readFileSync } from 'node:fs';
import { draw } from './chromium.ts';

const root = new URL('../../', import.meta.url);
const count = 6;
const columns = 3;
/** px of one picture in the strip, and of the gap between two. */
const frame = { width: 412, height: 340 };
const gap = 8;

const images = Array.from({ length: count }, (_, index) => {
  const png = readFileSync(new URL(`out/screenshots/drag-${index + 1}.png`, root)).toString('base64');
  return `<img style="box-sizing:border-box;border:1px solid #b8b8b8" width="${frame.width}" height="${frame.height}" src="data:image/png;base64,${png}">`;
});
const rows = Math.ceil(count / columns);
const [width, height] = [columns * frame.width + (columns - 1) * gap, rows * frame.height + (rows - 1) * gap];
const svg = `<div style="display:grid;gap:${gap}px;grid-template-columns:repeat(${columns},${frame.width}px);background:#fff">${images.join('')}</div>`;
await draw([{ svg, file: new URL('media/walkthrough/drag.png', root), width, height, colours: 24 }]);

import { join } from 'node:path';
import type { Frame, Locator, Page } from 'playwright-core';
import { projectFolder, until, Workbench, type OpenNotebook } from '../editor/harness.ts';
import { medianOf, type Row } from './row.ts';

/** Opened only when it is named: it serves an editor, and needs `npm run build` before. */
export const isForItself = true;

const file = 'drag.washboard.md';
const cells = [
  'ride = load "three-pads/brick-foam-1.csv.gz" | channel z | trim 1..30 s',
  'plot ride',
  'plot (spectrum ride) over 1..60 Hz',
];
const turns = 7;

/** What is noted in the frame of the outputs, by its own clock: when the pointer let go, and when each chart was drawn. */
interface Noted {
  released: number;
  drawn: number[][];
}

/** A trim of the sample dragged in the served editor: how often the spectrum follows, and how long after the release all is drawn. */
export async function rows(): Promise<Row[]> {
  const fences = cells.map((cell) => `\`\`\`washboard\n${cell}\n\`\`\`\n`).join('\n');
  const workbench = await Workbench.open({
    from: join(projectFolder, 'samples'),
    files: { [file]: fences },
    theme: 'light',
  });
  try {
    const notebook = await workbench.openNotebook(file);
    await notebook.runAll();
    for (const at of [0, 1, 2]) await notebook.ended(at);
    return await measured(workbench, notebook);
  } finally {
    await workbench.close();
  }
}

async function measured(workbench: Workbench, notebook: OpenNotebook): Promise<Row[]> {
  await notebook.reveal(1);
  const start = notebook.outputs().getByRole('slider', { name: /^Trim start/ });
  await start.waitFor();
  const frame = await frameOf(start);
  await frame.evaluate(watch);
  const [following, own, all]: [number[], number[], number[]] = [[], [], []];
  for (let turn = 0; turn < turns; turn++) {
    const before = await notebook.textOf(0);
    await notebook.reveal(1);
    const one = await drag(workbench.page, frame, start, turn % 2 === 0 ? 1 : -1);
    await until(async () => (await notebook.textOf(0)) !== before, 'a number that was written');
    await notebook.reveal(1);
    const { released, drawn } = await frame.evaluate(() => (window as unknown as { noted: Noted }).noted);
    const [trace, spectrum] = drawn;
    const after = drawn.map((times) => times.filter((time) => time > released).map((time) => time - released));
    following.push(one.ms / Math.max(1, spectrum.filter((time) => time < released && time > released - one.ms).length));
    // What the last preview had drawn already is drawn no more.
    own.push(Math.max(0, ...after[0].slice(0, 1)));
    all.push(Math.max(0, ...after.flatMap((times) => times.slice(0, 1))));
    if (trace.length === 0) throw new Error('the trace was never drawn anew');
  }
  const note = `served editor, time on the wall, ${turns} drags of 2 s`;
  return [
    {
      what: 'a trim dragged: from one preview of the spectrum to the next',
      ours: medianOf(following),
      goal: 125,
      note,
    },
    { what: 'release to its own chart drawn', ours: medianOf(own), goal: 200, note },
    { what: 'release to all charts in view drawn', ours: medianOf(all), goal: 400, note },
  ];
}

async function frameOf(inside: Locator): Promise<Frame> {
  const handle = await inside.elementHandle();
  return (await handle?.ownerFrame()) ?? Promise.reject(new Error('no frame of outputs'));
}

/** Moves the pointer all the while for two seconds, some 60 px there and back. */
async function drag(page: Page, frame: Frame, slider: Locator, way: 1 | -1): Promise<{ readonly ms: number }> {
  const box = (await slider.boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await frame.evaluate(() => (window as unknown as { noted: Noted }).noted.drawn.forEach((times) => times.splice(0)));
  const began = Date.now();
  await page.mouse.down();
  for (let step = 1; Date.now() - began < 2000; step++) {
    await page.mouse.move(x + way * (10 + 50 * Math.abs(Math.sin(step / 40))), y);
    await page.waitForTimeout(16);
  }
  await page.mouse.up();
  return { ms: Date.now() - began };
}

/** Notes in the page when pictures change: their marks are drawn anew within them. */
function watch(): void {
  const noted: Noted = { released: 0, drawn: [] };
  Object.assign(window, { noted });
  addEventListener('pointerup', () => (noted.released = performance.now()), { capture: true });
  for (const picture of document.querySelectorAll('.washboard-picture')) {
    const times: number[] = [];
    noted.drawn.push(times);
    const observer = new MutationObserver((changes) => {
      const isDrawn = changes.some(({ target }) => (target as Element).closest('.washboard-drawing') !== null);
      if (isDrawn && performance.now() - (times.at(-1) ?? -100) > 15) times.push(performance.now());
    });
    observer.observe(picture, { subtree: true, childList: true, attributes: true, attributeFilter: ['d'] });
  }
}

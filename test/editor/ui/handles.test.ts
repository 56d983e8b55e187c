import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator } from 'playwright-core';
import { OpenNotebook, projectFolder, until, Workbench } from '../harness.ts';
import { openRide, rideCell, rideFile, rideText } from './ride.ts';

const pictures = join(projectFolder, 'out', 'screenshots');
const cells = [
  rideCell,
  '# How it looks\nplot ride',
  'S = spectrum ride\nplot S, (band S 10..30 Hz) over 1..90 Hz',
  'levels ride',
];
const text = rideText(cells);

describe('handles on charts in a served editor', function () {
  let workbench: Workbench;
  let notebook: OpenNotebook;

  before(async () => {
    ({ workbench, notebook } = await openRide(cells));
  });
  after(async () => workbench?.close());

  const slider = (name: RegExp): Locator => notebook.outputs().getByRole('slider', { name }).first();
  const valueOf = async (name: RegExp): Promise<string> => (await slider(name).getAttribute('aria-valuetext')) ?? '';
  /** The trim as the first cell has it. */
  const ride = async (): Promise<string> => /trim \S+ s/.exec(await notebook.textOf(1))?.[0] ?? 'no trim';
  /** The spectrum's picture, which follows the trim. */
  const spectrum = async (): Promise<string> =>
    (await notebook
      .outputs()
      .locator('.washboard-picture svg')
      .filter({ hasText: /Frequency/ })
      .first()
      .innerHTML()) ?? '';

  /** Drags a slider by so many px, and lets go unless said. */
  async function drag(name: RegExp, by: number, release = true): Promise<void> {
    const box = (await slider(name).boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await workbench.page.mouse.move(x, y);
    await workbench.page.mouse.down();
    await workbench.page.mouse.move(x + by / 2, y, { steps: 4 });
    await workbench.page.mouse.move(x + by, y, { steps: 4 });
    if (release) await workbench.page.mouse.up();
  }

  it('are sliders with name, value and limits, which say the cell that they write', async () => {
    await notebook.reveal(2);
    await slider(/^Trim start, cell 2, The ride$/).waitFor();
    assert.equal(await valueOf(/^Trim start/), '2 s');
    assert.equal(await valueOf(/^Trim end/), '18 s');
    const start = slider(/^Trim start/);
    assert.deepEqual(await Promise.all(['aria-valuemin', 'aria-valuenow'].map((name) => start.getAttribute(name))), [
      '0',
      '2',
    ]);
  });

  it('write a trim in another cell when dragged by the mouse, and what depends on it is drawn anew', async () => {
    const before = await spectrum();
    await drag(/^Trim start/, 60, false);
    const says = await notebook.outputs().locator('.washboard-says:visible').first().textContent();
    assert.match(says ?? '', /^trim start: [\d.]+ s · writes cell 2, The ride$/);
    await workbench.screenshot(join(pictures, 'handle-dragged.png'));
    await workbench.page.mouse.up();
    await until(
      async () => /trim (?!2\.\.)[\d.]+\.\.18 s/.test(await ride()),
      async () => `a moved trim: ${await ride()}`,
    );
    const moved = /trim ([\d.]+)\.\./.exec(await ride())![1];
    assert.ok(Number(moved) > 3 && Number(moved) < 8, moved);
    await notebook.reveal(2);
    await until(
      async () => (await valueOf(/^Trim start/)) === `${moved} s`,
      'a slider that stands where the text has it',
    );
    await notebook.reveal(3);
    await until(async () => (await spectrum()) !== before, 'a spectrum that follows');
    assert.deepEqual(workbench.errors, []);
  });

  it('change one line of the file, by one step that the editor undoes', async () => {
    await notebook.reveal(2);
    await notebook.save();
    const saved = readFileSync(join(workbench.folder, rideFile), 'utf8').split('\n');
    const changed = text.split('\n').flatMap((line, at) => (line === saved[at] ? [] : [line]));
    assert.deepEqual(changed, ['ride = load "raw/*.csv" | channel z | trim 2..18 s']);
    assert.equal(saved.length, text.split('\n').length);
  });

  it('take back and do again what they wrote, by keys on the slider', async () => {
    await notebook.reveal(2);
    const moved = await ride();
    await notebook.reveal(2);
    await slider(/^Trim start/).focus();
    await workbench.page.keyboard.press('ControlOrMeta+Z');
    await until(
      async () => (await ride()) === 'trim 2..18 s',
      async () => `the trim as it was: ${await ride()}`,
    );
    await notebook.reveal(2);
    await until(async () => (await valueOf(/^Trim start/)) === '2 s', 'a slider back at 2 s');
    await workbench.page.keyboard.press('ControlOrMeta+Shift+Z');
    await until(async () => (await ride()) === moved, 'the trim moved again');
    await notebook.reveal(2);
    await slider(/^Trim start/).focus();
    await workbench.page.keyboard.press('ControlOrMeta+Z');
    await until(async () => (await ride()) === 'trim 2..18 s', 'the trim as it was');
  });

  it('are moved by keys, written once the keys rest, and keep the focus; Escape takes back what was not written', async () => {
    await notebook.reveal(2);
    await until(async () => (await valueOf(/^Trim end/)) === '18 s', 'a slider at 18 s');
    await slider(/^Trim end/).focus();
    await workbench.page.keyboard.press('PageDown');
    await workbench.page.keyboard.press('Escape');
    assert.equal(await valueOf(/^Trim end/), '18 s');
    for (let times = 0; times < 3; times++) await workbench.page.keyboard.press('ArrowLeft');
    const value = await valueOf(/^Trim end/);
    assert.ok(Number.parseFloat(value) < 18 && Number.parseFloat(value) > 17, value);
    await until(
      async () => (await ride()) === `trim 2..${value}`,
      async () => `a moved end at ${value}: ${await ride()}`,
    );
    await notebook.reveal(2);
    await until(
      () => slider(/^Trim end/).evaluate((node) => node === document.activeElement),
      'a slider that keeps the focus',
    );
    assert.deepEqual(workbench.errors, []);
  });
});

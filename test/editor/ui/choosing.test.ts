import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator } from 'playwright-core';
import { OpenNotebook, projectFolder, until, Workbench, type Theme } from '../harness.ts';
import { openRide, rideCell, rideFile, rideText } from './ride.ts';

const pictures = join(projectFolder, 'out', 'screenshots');
const cells = [
  rideCell,
  '# How it looks\nplot ride',
  '# Over frequency\nS = spectrum ride\nplot S, (band S 10..30 Hz) over 1..90 Hz',
  'P = plan "Less?" primary 10..30 Hz\ncompare ride[1] with ride[2] plan P',
];

const themes = ['light', 'dark', 'high-contrast', 'high-contrast-light'] satisfies Theme[];

describe('stretches, readings and closer looks in a served editor', function () {
  let workbench: Workbench;
  let notebook: OpenNotebook;

  before(async () => {
    ({ workbench, notebook } = await openRide(cells));
  });
  after(async () => workbench?.close());

  /** The chart with such a title. */
  const chart = (title: RegExp): Locator => notebook.outputs().locator('.washboard-chart').filter({ hasText: title });
  const trace = (): Locator => chart(/^.*over time/).first();
  const spectrum = (): Locator => chart(/spectral density of/).first();
  const hairOf = (of: Locator): Locator => of.getByRole('slider', { name: /^Cross-hair/ });
  const saysOf = async (of: Locator): Promise<string> => (await hairOf(of).getAttribute('aria-valuetext')) ?? '';
  const slider = (of: Locator, name: RegExp): Locator => of.getByRole('slider', { name }).first();
  const dirty = (): Promise<number> => workbench.page.locator('.tab.active.dirty').count();
  const text = (at: number): Promise<string> => notebook.textOf(at);

  async function dragOver(of: Locator, from: number, to: number): Promise<void> {
    const box = (await of.locator('.washboard-drawing svg .background').first().boundingBox())!;
    const at = (share: number): [number, number] => [box.x + share * box.width, box.y + 0.6 * box.height];
    await workbench.page.mouse.move(...at(from));
    await workbench.page.mouse.down();
    await workbench.page.mouse.move(...at((from + to) / 2), { steps: 3 });
    await workbench.page.mouse.move(...at(to), { steps: 3 });
    await workbench.page.mouse.up();
  }
  async function dragHandle(of: Locator, name: RegExp, by: number): Promise<void> {
    const box = (await slider(of, name).boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await workbench.page.mouse.move(x, y);
    await workbench.page.mouse.down();
    await workbench.page.mouse.move(x + by, y, { steps: 6 });
    await workbench.page.mouse.up();
  }
  const entry = (of: Locator, label: string): Locator => of.getByRole('menuitem', { name: label });

  it('tell a screen reader their handles, readings and legends with names, roles and values', async () => {
    await notebook.reveal(2);
    await slider(trace(), /^Trim start/).waitFor();
    const seen = await trace().ariaSnapshot();
    for (const expected of [
      /img "[^"]*over time/,
      /slider "Cross-hair, [^"]*over time/,
      /- group "What can be moved"/,
      /- slider "Trim start, cell 2, The ride"/,
      /- slider "Trim end, cell 2, The ride"/,
      /button "Save or copy: /,
    ])
      assert.match(seen, expected);
    await notebook.reveal(3);
    assert.match(await spectrum().ariaSnapshot(), /- group "Legend":\s*- switch "[^"]+" \[checked\]/);
  });

  it('read all curves by keys, and the difference between two places', async () => {
    await notebook.reveal(3);
    await hairOf(spectrum()).focus();
    await workbench.page.keyboard.press('ArrowRight');
    const first = await saysOf(spectrum());
    assert.match(first, /^[\d.]+ Hz; .*: \S+ g²\/Hz$/);
    for (let times = 0; times < 2; times++) await workbench.page.keyboard.press('Shift+PageUp');
    assert.match(await saysOf(spectrum()), /^[\d.]+ to [\d.]+ Hz \([\d.]+ Hz\); .* → .* \(.* dB, .* %\)$/);
    await workbench.page.keyboard.press('Escape');
    await workbench.page.keyboard.press('Escape');
    assert.equal(await saysOf(spectrum()), 'not placed');
  });

  it('look closer by keys and show all again by a button, and nothing of it is written', async () => {
    await notebook.reveal(3);
    const most = async (): Promise<number> => Number(await hairOf(spectrum()).getAttribute('aria-valuemax'));
    const whole = await most();
    await hairOf(spectrum()).focus();
    await workbench.page.keyboard.press('+');
    await until(
      async () => (await most()) < whole,
      async () =>
        `a chart that shows less of its axis: ${(await spectrum().locator('.washboard-refused, .washboard-closer').allTextContents()).join('; ')}`,
    );
    const bar = spectrum().getByRole('toolbar', { name: 'A closer look' });
    assert.match((await bar.textContent()) ?? '', / to [\d.]+ Hz/);
    await workbench.screenshot(join(pictures, 'closer.png'));
    await bar.getByRole('button', { name: 'Show All' }).click();
    await until(async () => (await most()) === whole, 'the whole axis');
    await until(async () => !(await bar.isVisible()), 'no bar');
    assert.equal(await dirty(), 0);
    await workbench.page.keyboard.press('Escape');
  });

  it('hide a series of the legend by keys', async () => {
    await notebook.reveal(3);
    const one = spectrum().getByRole('switch').first();
    const lines = (): Promise<number> => spectrum().locator('svg .mark-line path').count();
    const all = await lines();
    await one.focus();
    await workbench.page.keyboard.press('Space');
    await until(async () => (await lines()) < all, 'fewer curves');
    assert.equal(await one.getAttribute('aria-checked'), 'false');
    await workbench.page.keyboard.press('Enter');
    await until(async () => (await lines()) === all, 'all curves');
    assert.equal(await dirty(), 0);
  });

  it('make a chosen stretch into a band of the plot, by one step, and keep the rest of the file', async () => {
    await notebook.reveal(3);
    await dragOver(spectrum(), 0.5, 0.7);
    await entry(spectrum(), 'Add this band').waitFor();
    await workbench.screenshot(join(pictures, 'chosen-light.png'));
    await entry(spectrum(), 'Add this band').click();
    await until(
      async () => /band S 10\.\.30 Hz, [\d.]+\.\.[\d.]+ Hz\)/.test(await text(3)),
      async () => `a second band: ${await text(3)}`,
    );
    await notebook.reveal(3);
    await spectrum()
      .getByRole('slider', { name: /^Band lower edge/ })
      .nth(1)
      .waitFor();
    await notebook.save();
    const changed = (): string[] => {
      const saved = readFileSync(join(workbench.folder, rideFile), 'utf8').split('\n');
      return saved.filter((line, at) => line !== rideText(cells).split('\n')[at]);
    };
    await until(() => Promise.resolve(changed().length > 0), 'a changed file');
    assert.equal(changed().length, 1, changed().join('\n'));
    assert.match(changed()[0], /^plot S, \(band S 10\.\.30 Hz, [\d.]+\.\.[\d.]+ Hz\) over 1\.\.90 Hz$/);
  });

  it('take back by keys on the cross-hair what was made, and make it again', async () => {
    await notebook.reveal(3);
    const made = await text(3);
    await notebook.reveal(3);
    await hairOf(spectrum()).focus();
    await workbench.page.keyboard.press('ControlOrMeta+Z');
    await until(async () => (await text(3)) === cells[2], 'the cell as it was');
    await notebook.reveal(3);
    await until(
      async () =>
        (await spectrum()
          .getByRole('slider', { name: /^Band lower edge/ })
          .count()) === 1,
      'one band alone',
    );
    await hairOf(spectrum()).focus();
    await workbench.page.keyboard.press('ControlOrMeta+Shift+Z');
    await until(async () => (await text(3)) === made, 'the band again');
  });

  /** Where the trim of the trace begins and ends, as its handles say. */
  const trimOf = async (): Promise<string> => {
    const handles = trace().getByRole('slider', { name: /^Trim (start|end)/ });
    return (await handles.evaluateAll((all) => all.map((each) => each.getAttribute('aria-valuenow')))).join(' ');
  };

  /** Waits until a cell has another text, and takes that back from the trace's cross-hair; the trace is drawn anew. */
  async function madeAndTakenBack(at: number, made: RegExp): Promise<void> {
    const before = cells[at - 1];
    await until(
      async () => made.test(await text(at)),
      async () => `a change: ${await text(at)}`,
    );
    await notebook.reveal(2);
    await hairOf(trace()).focus();
    await workbench.page.keyboard.press('ControlOrMeta+Z');
    await until(
      async () => (await text(at)) === before,
      async () => `the cell as it was: ${await text(at)}`,
    );
    await notebook.reveal(2);
    // The text is back before the runs that follow it: a drag over a chart that is then replaced chooses nothing.
    await until(
      async () => (await trimOf()) === '2 18',
      async () => `the trim as it was: ${await trimOf()}`,
    );
  }

  it('make a chosen stretch of the trace into its trim, and a place into a mark of its plot', async () => {
    await notebook.reveal(2);
    await dragOver(trace(), 0.3, 0.7);
    await entry(trace(), 'Trim to this').click();
    await madeAndTakenBack(
      1,
      /^# The ride\nride = load "raw\/\*\.csv" \| channel z \| trim (?!2\.\.)[\d.]+\.\.(?!18)[\d.]+ s$/,
    );
    await dragOver(trace(), 0.3, 0.5);
    await entry(trace(), 'Mark here').click();
    await madeAndTakenBack(2, /^# How it looks\nplot ride mark [\d.]+ s$/);
  });

  it('are moved and chosen by a finger', async () => {
    const session = await workbench.page.context().newCDPSession(workbench.page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...at: readonly (readonly [number, number])[]) =>
      session.send('Input.dispatchTouchEvent', { type, touchPoints: at.map(([x, y]) => ({ x, y })) });
    const across = async (x: number, y: number, by: number): Promise<void> => {
      await touch('touchStart', [x, y]);
      for (let step = 1; step <= 5; step++) await touch('touchMove', [x + (step * by) / 5, y]);
      await touch('touchEnd');
    };
    await notebook.reveal(2);
    const grip = (await slider(trace(), /^Trim start/).boundingBox())!;
    await across(grip.x + grip.width / 2, grip.y + 8, 60);
    await madeAndTakenBack(1, /trim (?!2\.\.)[\d.]+\.\.18 s$/);
    const plot = (await trace().locator('.washboard-drawing svg .background').first().boundingBox())!;
    await across(plot.x + 0.4 * plot.width, plot.y + 0.6 * plot.height, 150);
    await entry(trace(), 'Trim to this').waitFor();
    await workbench.page.keyboard.press('Escape');
  });

  it('move along by a drag with Shift while looked at closer, and by keys, with data of their own', async () => {
    await notebook.reveal(3);
    const least = async (): Promise<number> => Number(await hairOf(spectrum()).getAttribute('aria-valuemin'));
    await hairOf(spectrum()).focus();
    await workbench.page.keyboard.press('+');
    const bar = spectrum().getByRole('toolbar', { name: 'A closer look' });
    await bar.waitFor();
    await until(async () => (await least()) > 5, 'less of the axis');
    const first = await least();
    await workbench.page.keyboard.down('Shift');
    await dragOver(spectrum(), 0.3, 0.5);
    await workbench.page.keyboard.up('Shift');
    await until(
      async () => (await least()) < first - 5,
      async () => `an axis that begins below ${first}: ${await least()}`,
    );
    await hairOf(spectrum()).focus();
    const second = await least();
    await workbench.page.keyboard.press('ControlOrMeta+ArrowRight');
    await until(async () => (await least()) > second + 5, 'the stretch above');
    for (const theme of themes) {
      await workbench.theme(theme);
      await workbench.screenshot(join(pictures, `panned-${theme}.png`));
    }
    await workbench.theme('light');
    await bar.getByRole('button', { name: 'Show All' }).click();
    await until(async () => !(await bar.isVisible()), 'no bar');
    assert.equal(await entry(spectrum(), 'Zoom in').count(), 0);
  });

  it('write a band whose edge is dragged', async () => {
    await notebook.reveal(3);
    await dragHandle(spectrum(), /^Band lower edge/, 20);
    await until(
      async () => /band S (?!10\.\.)[\d.]+\.\.30 Hz, /.test(await text(3)),
      async () => `a moved edge: ${await text(3)}`,
    );
  });

  it('put a cell below what is shown without a plot, and change nothing that a plan settled', async () => {
    await notebook.reveal(4);
    const locked = notebook
      .outputs()
      .getByRole('slider', { name: /locked: settled by the plan P$/ })
      .first();
    await locked.waitFor();
    assert.equal(await locked.getAttribute('aria-disabled'), 'true');
    const owner = notebook
      .outputs()
      .locator('.washboard-chart')
      .filter({ has: notebook.outputs().getByRole('slider', { name: /settled by the plan P$/ }) })
      .first();
    await hairOf(owner).focus();
    await workbench.page.keyboard.press('Shift+PageUp');
    await workbench.page.keyboard.press('Enter');
    const band = entry(owner, 'Add this band');
    assert.equal(await band.getAttribute('aria-disabled'), 'true');
    assert.match((await band.textContent()) ?? '', /the bands are settled by the plan P$/);
    const count = await notebook.count();
    await entry(owner, 'Keep this range').click();
    await until(async () => (await notebook.count()) === count + 1, 'a new cell');
    await until(
      async () => /^plot \(compare ride\[1\] with ride\[2\] plan P\) over [\d.]+\.\.[\d.]+ Hz$/.test(await text(5)),
      async () => `a plot in the new cell: ${await text(5)}`,
    );
    assert.equal(await text(4), cells[3]);
  });

  it('write a trim by keys after its cell was edited and moved', async () => {
    await notebook.editCell(1, '# The ride\n# as it was recorded\nride = load "raw/*.csv" | channel z | trim 2..18 s');
    await workbench.page.keyboard.press('Alt+ArrowDown');
    await until(async () => (await text(2)).includes('as it was recorded'), 'a cell that has moved');
    await notebook.reveal(1);
    await slider(trace(), /^Trim start/).focus();
    await workbench.page.keyboard.press('PageUp');
    await workbench.page.keyboard.press('Enter');
    await until(
      async () => /trim (?!2\.\.)[\d.]+\.\.18 s/.test(await text(2)),
      async () => `a moved trim: ${await text(2)}`,
    );
    assert.deepEqual(workbench.errors, []);
  });

  for (const theme of themes)
    it(`are drawn in the ${theme} theme`, async () => {
      await workbench.theme(theme);
      await notebook.reveal(3);
      await hairOf(spectrum()).focus();
      await workbench.page.keyboard.press('Shift+PageUp');
      await workbench.page.keyboard.press('Shift+PageUp');
      await workbench.screenshot(join(pictures, `cross-hair-${theme}.png`));
      await workbench.page.keyboard.press('Enter');
      await entry(spectrum(), 'Zoom in').waitFor();
      await workbench.screenshot(join(pictures, `choices-${theme}.png`));
      await workbench.page.keyboard.press('Escape');
      await workbench.page.keyboard.press('Escape');
      await workbench.page.keyboard.press('Escape');
      await spectrum()
        .getByRole('button', { name: /^Save or copy/ })
        .click();
      await workbench.screenshot(join(pictures, `save-or-copy-${theme}.png`));
      await workbench.page.keyboard.press('Escape');
      assert.deepEqual(workbench.errors, []);
    });
});

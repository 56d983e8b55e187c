import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseNotebook } from '../../../src/notebook/parse.ts';
import { OpenNotebook, patience, projectFolder, Workbench, type Theme } from '../harness.ts';

const study = 'seat-pad.washboard.md';
const pictures = join(projectFolder, 'out', 'screenshots');

/** The study's cells, as the editor counts them. */
function cellsOf(): { readonly kind: string; readonly text: string }[] {
  const notebook = parseNotebook(readFileSync(join(projectFolder, 'samples', study)));
  assert.ok(notebook.ok);
  return [...notebook.value.cells];
}

const cells = cellsOf();
const indexOf = (pattern: RegExp): number => {
  const at = cells.findIndex(({ kind, text }) => kind === 'code' && pattern.test(text));
  assert.ok(at >= 0, `the study has no cell with ${pattern}`);
  return at;
};

describe('the sample study in a served editor', function () {
  let workbench: Workbench;
  let notebook: OpenNotebook;
  const densities = indexOf(/^plot brick_foam_density/m);
  const codes = cells.flatMap(({ kind }, at) => (kind === 'code' ? [at] : []));

  before(async () => {
    workbench = await Workbench.open({ from: join(projectFolder, 'samples'), theme: 'light' });
  });
  after(async () => workbench?.close());

  /** The chart whose text is like this, once it is drawn. */
  const charts = (pattern: RegExp) => notebook.outputs().locator('.washboard-picture svg').filter({ hasText: pattern });
  const chart = (pattern: RegExp) => charts(pattern).first();

  it('opens by a double click as a notebook with all its cells', async () => {
    notebook = await workbench.openNotebook(study);
    assert.equal(await notebook.count(), cells.length);
  });

  it('runs from top to bottom without a failing cell', async () => {
    await notebook.runAll();
    for (const at of codes) assert.equal(await notebook.ended(at), 'success', `cell ${at}: ${cells[at].text}`);
  });

  it('draws every chart, with quantity and unit on its axes', async () => {
    const shows: [cell: number, title: RegExp, axes: RegExp[]][] = [
      [indexOf(/^plot first_ride/m), /brick-foam-1/, [/Time \(s\)/, /x \(g\)/, /y \(g\)/, /z \(g\)/]],
      [densities, /spectral density.*foam on bricks/, [/Frequency \(Hz\)/, /\(g²\/Hz\)/, /gel on bricks/]],
      [
        indexOf(/^plot tile_foam_density/m),
        /spectral density.*foam on tiles/,
        [/Frequency \(Hz\)/, /\(g²\/Hz\)/, /gel on tiles/],
      ],
      [indexOf(/^band brick_foam_density/m), /r\.m\.s\. \(g\).*foam on bricks/, [/Band/, /10–50 Hz/]],
      [
        indexOf(/^bricks = compare/m),
        /foam on bricks, mean of 4 runs.*Change of acceleration r\.m\.s\. \(%\)/,
        [/Frequency \(Hz\)/, /\(g²\/Hz\)/],
      ],
    ];
    for (const [cell, title, axes] of shows) {
      await notebook.reveal(cell);
      await chart(title).waitFor();
      for (const axis of axes) await charts(title).filter({ hasText: axis }).first().waitFor();
    }
  });

  /** The errors since this was last asked: one of them fails one test. */
  let seen = 0;
  const newErrors = (): readonly string[] => {
    const errors = workbench.errors.slice(seen);
    seen = workbench.errors.length;
    return errors;
  };

  it('leaves no error on the console', () => assert.deepEqual(newErrors(), []));

  for (const theme of ['dark', 'high-contrast', 'high-contrast-light', 'light'] as Theme[]) {
    it(`is drawn anew in the ${theme} theme, with words that stand out`, async () => {
      await workbench.theme(theme);
      await notebook.reveal(densities + 1);
      const label = chart(/Frequency/)
        .locator('text')
        .filter({ hasText: /^Frequency/ })
        .first();
      await label.waitFor();
      const needed = theme.startsWith('high') ? 7 : 4.5;
      await until(
        async () => contrast(await label.evaluate(coloursOf)) >= needed,
        `a contrast of ${needed} in the ${theme} theme`,
      );
      await workbench.screenshot(join(pictures, `study-${theme}.png`));
      assert.deepEqual(newErrors(), []);
    });
  }

  it('runs a cell again after an edit, and the charts that depend on it change', async () => {
    const loading = indexOf(/^brick_foam = load/m);
    await notebook.reveal(densities);
    const before = await chart(/density.*bricks/i).innerHTML();
    const text = cells[loading].text.replace('12..72 s', '20..50 s');
    assert.notEqual(text, cells[loading].text);
    await notebook.editCell(loading, text);
    // Read while the editor lays its lines out anew, they may stand in another order for a moment.
    await until(async () => (await notebook.textOf(loading)) === text, 'the edited text');
    assert.equal(await notebook.runCell(loading), 'success');
    await notebook.reveal(densities);
    await until(async () => (await chart(/density.*bricks/i).innerHTML()) !== before, 'a chart that follows the edit');
    assert.deepEqual(newErrors(), []);
  });

  it('saves the edit as one changed line, and nothing of the outputs', async () => {
    await notebook.save();
    const original = join(projectFolder, 'samples', study);
    const { stdout } = spawnSync('git', ['diff', '--no-index', '--numstat', original, join(workbench.folder, study)], {
      encoding: 'utf8',
    });
    assert.match(stdout, /^1\t1\t/);
  });
});

/** Asks until it holds. */
async function until(holds: () => Promise<boolean>, what: string): Promise<void> {
  const deadline = Date.now() + patience;
  while (!(await holds())) {
    if (Date.now() > deadline) throw new Error(`waited in vain for ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/** The colour of a text in a chart, and of the editor that it stands on, as the page computes them. */
function coloursOf(text: Element): [string, string] {
  const probe = document.createElement('span');
  probe.style.color = 'var(--vscode-editor-background)';
  document.body.append(probe);
  const ground = getComputedStyle(probe).color;
  probe.remove();
  return [getComputedStyle(text).fill, ground];
}

/** Relative luminance (WCAG 2.1) of a computed colour, `rgb(r, g, b)`. */
function luminance(colour: string): number {
  const [r, g, b] = colour.match(/[\d.]+/g)!.map((part) => {
    const value = Number(part) / 255;
    return value <= 0.03928 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** The contrast ratio of two colours (WCAG 2.1), 1 to 21. */
function contrast([a, b]: readonly [string, string]): number {
  const [one, other] = [luminance(a), luminance(b)];
  return (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
}

import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { projectFolder, Workbench, type OpenNotebook } from '../harness.ts';
import { expectedStudy, type ExpectedStudy } from './expectedCharts.ts';

interface DrawnChart {
  readonly label: string;
  readonly texts: readonly string[];
  /** Colours of the texts, as the page computes them. */
  readonly inks: readonly string[];
  readonly paths: readonly string[];
}

const study = 'seat-pad.washboard.md';

/** Every chart that stands in the outputs' frame, whether in view or not. */
function drawnCharts(notebook: OpenNotebook): Promise<DrawnChart[]> {
  return notebook
    .outputs()
    .locator('.washboard-chart')
    .evaluateAll((figures) =>
      figures.flatMap((figure) => {
        const svg = figure.querySelector('svg');
        if (svg === null) return [];
        const texts = [...svg.querySelectorAll('text')];
        return [
          {
            label: figure.querySelector('[role=img]')?.getAttribute('aria-label') ?? '',
            texts: texts.map((text) => text.textContent ?? ''),
            // A text with a stroke is the halo behind another, in the colour of the background.
            inks: [
              ...new Set(
                texts
                  .map((text) => getComputedStyle(text))
                  .filter(({ stroke }) => stroke === 'none')
                  .map(({ fill }) => fill),
              ),
            ],
            paths: [...svg.querySelectorAll('path')].map((path) => path.getAttribute('d') ?? ''),
          },
        ];
      }),
    );
}

describe('the sample study in a real editor', function () {
  this.timeout(400_000);
  let expected: ExpectedStudy;
  let workbench: Workbench;
  let notebook: OpenNotebook;

  before(async () => {
    expected = await expectedStudy(join(projectFolder, 'samples', study));
    // Typed lines would be indented by the editor; the test wants the text as it is given.
    workbench = await Workbench.open({
      from: join(projectFolder, 'samples'),
      theme: 'light',
      settings: { 'editor.autoIndent': 'none' },
    });
    const git = (...words: string[]): string => execFileSync('git', words, { cwd: workbench.folder, encoding: 'utf8' });
    git('init', '--quiet');
    git('add', '.');
    git('-c', 'user.name=A Tester', '-c', 'user.email=tester@example.org', 'commit', '--quiet', '-m', 'The study');
  });
  after(async () => workbench?.close());

  it('opens as a notebook by a double click, and runs all its cells', async () => {
    notebook = await workbench.openNotebook(study);
    await notebook.runAll();
    for (const { index } of expected.cells) assert.equal(await notebook.ended(index), 'success', `cell ${index}`);
  });

  it('shows every chart with its axes’ titles', async () => {
    for (const { index } of expected.cells) await notebook.reveal(index);
    assert.ok(expected.charts.length >= 6, 'the study has charts');
    await assertAllDrawn(expected, notebook);
  });

  for (const theme of ['dark', 'high-contrast', 'high-contrast-light', 'light'] as const) {
    it(`keeps every chart readable in the theme ${theme}`, async () => {
      await workbench.theme(theme);
      const background = await notebook
        .outputs()
        .locator('body')
        .evaluate(() => {
          const probe = document.createElement('div');
          probe.style.color = 'var(--vscode-editor-background)';
          document.body.append(probe);
          const { color } = getComputedStyle(probe);
          probe.remove();
          return color;
        });
      await assertAllDrawn(expected, notebook);
      for (const { label, inks } of await drawnCharts(notebook)) {
        // WCAG 2.1, 1.4.3: 4.5 to 1 for text; 3 to 1 is the least that a faint label may have (1.4.11).
        for (const ink of inks)
          assert.ok(contrast(ink, background) >= 3, `${label.slice(0, 60)}: ${ink} on ${background}`);
      }
    });
  }

  it('draws a dependent chart anew when a trim is edited and its cell is run', async () => {
    const trim =
      expected.cells.find(({ text }) => text.includes('raw/brick-gel-') && text.includes('trim')) ??
      assert.fail('no trim');
    const comparison =
      expected.charts.find(({ title }) => title.startsWith('Change of band')) ?? assert.fail('no comparison');
    const before = await pathsOf(notebook, comparison.title);
    const edited = trim.text.replace(/trim 12\.\.72 s/, 'trim 14..60 s');
    assert.notEqual(edited, trim.text);
    await notebook.editCell(trim.index, edited);
    assert.equal(await notebook.runCell(trim.index), 'success');
    for (const { index, text } of expected.cells) if (text.includes('compare')) await notebook.reveal(index);
    const deadline = Date.now() + 60_000;
    while ((await pathsOf(notebook, comparison.title)) === before) {
      assert.ok(Date.now() < deadline, 'the comparison did not change');
      await new Promise((resolve) => setTimeout(resolve, 200));
    }
  });

  it('saves that edit as the one line that it is', async () => {
    await notebook.save();
    const diff = execFileSync('git', ['diff', '--unified=0', '--', study], { cwd: workbench.folder, encoding: 'utf8' });
    const changed = diff.split('\n').filter((line) => /^[-+](?![-+])/.test(line));
    assert.deepEqual(changed, ['-  | trim 12..72 s', '+  | trim 14..60 s']);
  });

  it('leaves no error on the console', () => {
    assert.deepEqual(workbench.errors, []);
  });
});

async function pathsOf(notebook: OpenNotebook, title: string): Promise<string> {
  const chart = (await drawnCharts(notebook)).find(({ label }) => label.startsWith(title));
  return chart?.paths.join(' ') ?? '';
}

async function assertAllDrawn(expected: ExpectedStudy, notebook: OpenNotebook): Promise<void> {
  const deadline = Date.now() + 60_000;
  for (;;) {
    const drawn = await drawnCharts(notebook);
    const missing = expected.charts.filter(
      ({ title, axisTitles }) =>
        !drawn.some(
          ({ label, texts }) =>
            label.startsWith(title) &&
            axisTitles.every((axis) =>
              texts.some((text) => text.replace(/…$/, '') !== '' && axis.startsWith(text.replace(/…$/, ''))),
            ),
        ),
    );
    if (missing.length === 0) return;
    if (Date.now() > deadline)
      assert.fail(
        `not drawn, or without axis titles: ${JSON.stringify(missing)}; drawn: ${drawn.map(({ label }) => label.slice(0, 50)).join(' | ')}`,
      );
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
}

/** Contrast of two colours as WCAG 2.1 defines it (relative luminance, https://www.w3.org/TR/WCAG21/). */
function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

function luminance(colour: string): number {
  const [red, green, blue] = (colour.match(/[\d.]+/g) ?? [])
    .slice(0, 3)
    .map(Number)
    .map((value) => {
      const part = value / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

import { strict as assert } from 'node:assert';
import { gzipSync } from 'node:zlib';
import { present } from '../../src/charts/present.ts';
import { themes } from '../../src/charts/theme.ts';
import { everyValue, plotOf } from '../charts/everyValue.ts';
import { foamSpectrum, gelSpectrum, madeBands } from '../charts/madeUp.ts';
import { dark, light, pageOfTests, rendererBundle } from './page.ts';

const overlay = present(plotOf([foamSpectrum, gelSpectrum, madeBands(foamSpectrum)]), undefined, []);

describe('the renderer in a page with a strict content policy', () => {
  const host = pageOfTests();
  afterEach(() => host.dispose());

  it('draws every kind of value without a complaint of the browser', async () => {
    for (const [kind, value] of Object.entries(everyValue)) await host.render(kind, present(value, kind, []));
    const charts = await host.page.locator('.washboard-chart').count();
    assert.ok(charts >= 12);
    assert.equal(await host.page.locator('.washboard-chart svg').count(), charts);
    assert.deepEqual(host.complaints, []);
  });

  it('titles the axes in the picture, and the chart above it', async () => {
    await host.render('one', overlay);
    const place = host.page.locator('#one');
    const text = await place.locator('svg').textContent();
    assert.ok(text?.includes('Acceleration spectral density (g²/Hz)') && text.includes('Frequency (Hz)'));
    assert.match(
      (await place.locator('figcaption').textContent()) ?? '',
      /^Acceleration spectral density of foam and gel, channel z/,
    );
  });

  it('gives a chart to assistive technology as one picture with its words, reached by keyboard', async () => {
    await host.render('one', overlay);
    const picture = host.page.locator('#one [role=img]');
    assert.match((await picture.getAttribute('aria-label')) ?? '', /They differ most at/);
    await picture.focus();
    assert.ok(await picture.evaluate((node) => node === document.activeElement));
    // Past the cross-hair and the legend.
    const focused = (): Promise<string> => host.page.evaluate(() => document.activeElement?.tagName ?? '');
    for (let tabs = 0; tabs < 6 && (await focused()) !== 'SUMMARY'; tabs++) await host.page.keyboard.press('Tab');
    await host.page.keyboard.press('Enter');
    assert.ok(await host.page.locator('#one .washboard-words p').isVisible());
  });

  it('makes tables real ones, with caption, headers and scopes', async () => {
    await host.render('levels', present(everyValue.levels, 'L', []));
    const table = host.page.locator('#levels table.washboard-table').first();
    assert.equal(await host.page.locator('#levels figcaption').first().textContent(), 'Levels of foam');
    assert.equal(await table.getAttribute('aria-label'), 'Levels of foam');
    assert.equal(await table.locator('thead th[scope=col]').first().textContent(), 'Run');
    assert.equal(await table.locator('tbody th[scope=row]').count(), everyValue.levels.rows.length);
  });

  it('shows messages with severity, code and place, and takes markup for text', async () => {
    const message = '<img src=x onerror="document.title=1"> is no number.';
    await host.render('bad', {
      ...overlay,
      parts: [{ type: 'text', text: '<b>bold</b>' }],
      messages: [{ severity: 'error', code: 'text.number', message, where: 'cell 3, line 2' }],
    });
    const shown = await host.page.locator('#bad .washboard-message.washboard-error').textContent();
    assert.ok(
      shown?.includes(message) &&
        shown.includes('text.number') &&
        shown.includes('cell 3, line 2') &&
        shown.startsWith('Error'),
    );
    assert.equal(await host.page.locator('#bad img, #bad b').count(), 0);
    assert.equal(await host.page.title(), 'outputs');
  });

  it('shows one warning of each sort, three at most, and counts the rest, which open by a click', async () => {
    const warning = (code: string): object => ({ severity: 'warning', code, message: `Says ${code}.` });
    const messages = ['a', 'a', 'a', 'b', 'c', 'd'].map(warning);
    await host.render('many', { ...overlay, parts: [], messages });
    const place = host.page.locator('#many');
    assert.deepEqual(await place.locator('.washboard-output > .washboard-message .washboard-code').allTextContents(), [
      'a',
      'b',
      'c',
    ]);
    const rest = place.locator('details');
    assert.equal(await rest.locator('summary').textContent(), '3 more warnings');
    assert.ok(!(await rest.locator('p').first().isVisible()));
    await rest.locator('summary').click();
    assert.ok(await rest.locator('p').last().isVisible());
  });

  it('never folds an error away', async () => {
    const messages = Array.from({ length: 5 }, () => ({ severity: 'error', code: 'x', message: 'No.' }));
    await host.render('errors', { ...overlay, parts: [], messages });
    assert.equal(await host.page.locator('#errors .washboard-output > .washboard-error').count(), 5);
  });

  it('sets words of the language as code within a message', async () => {
    const message = 'Nothing is called `fom`; did you mean `foam`?';
    await host.render('code', { ...overlay, parts: [], messages: [{ severity: 'error', code: 'name', message }] });
    assert.deepEqual(await host.page.locator('#code code.washboard-word').allTextContents(), ['fom', 'foam']);
  });

  it('gives words of the language the colour of their message, whatever ground an editor has under code', async () => {
    // As a light theme of high contrast has it, on a dark ground.
    await host.page.addStyleTag({ content: 'code { color: #ffffff; background: #09345f; }' });
    await host.render('words', {
      ...overlay,
      parts: [],
      messages: [{ severity: 'error', code: 'name', message: 'Nothing is called `fom`.' }],
    });
    const [word, around] = await host.page
      .locator('#words code.washboard-word')
      .evaluate((code) => [code, code.parentElement!].map((one) => getComputedStyle(one).color));
    assert.equal(word, around);
  });

  it('opens what is of second rank on demand, and keeps verbatim text as it is', async () => {
    const parts = [
      { type: 'text', text: 'a,b\n,1', style: 'verbatim' },
      { type: 'text', text: 'one\ntwo', folded: 'More' },
    ];
    await host.render('ranks', { ...overlay, parts });
    assert.equal(await host.page.locator('#ranks pre').textContent(), 'a,b\n,1');
    assert.ok(!(await host.page.locator('#ranks details p').first().isVisible()));
    await host.page.locator('#ranks summary').click();
    assert.deepEqual(await host.page.locator('#ranks details p').allTextContents(), ['one', 'two']);
  });

  it('takes markup in names of runs and columns for text, in chart and table alike', async () => {
    const evil = '<img src=x onerror=alert(1)>';
    const spectrum = { ...foamSpectrum, set: evil };
    await host.render('evil', present(spectrum, evil, []));
    assert.equal(await host.page.locator('#evil img').count(), 0);
    assert.ok((await host.page.locator('#evil svg').first().textContent())?.includes(evil));
    assert.deepEqual(host.complaints, []);
  });

  it('says the values at the pointer, and stops when it leaves', async () => {
    await host.render('one', overlay);
    const chart = host.page.locator('#one svg');
    await chart.scrollIntoViewIfNeeded();
    const box = await chart.boundingBox();
    assert.ok(box !== null);
    await host.page.mouse.move(box.x + 300, box.y + 150);
    await host.page.mouse.move(box.x + 305, box.y + 150);
    const tooltip = host.page.locator('#one .washboard-tooltip');
    assert.match(
      (await tooltip.textContent()) ?? '',
      /Hz\nfoam, mean of 4 runs: [\d.×⁻⁰-⁹¹²³]+ g²\/Hz \([\d.×⁻⁰-⁹¹²³]+ to [\d.×⁻⁰-⁹¹²³]+\)\ngel/,
    );
    assert.ok(await tooltip.isVisible());
    await host.page.mouse.move(box.x + 300, box.y + box.height + 40);
    assert.ok(!(await tooltip.isVisible()));
  });

  it('follows the theme without drawing anew', async () => {
    await host.render('one', overlay);
    const colours = (): Promise<string[]> =>
      host.page
        .locator('#one svg .mark-line path')
        .evaluateAll((paths) => paths.map((path) => path.getAttribute('stroke') ?? ''));
    await host.page.locator('#one svg').evaluate((svg) => svg.setAttribute('data-same', 'yes'));
    assert.ok((await colours()).includes(themes.dark.series[0]));
    await host.setTheme('vscode-light', light);
    assert.ok((await colours()).includes(themes.light.series[0]) && !(await colours()).includes(themes.dark.series[0]));
    await host.setTheme('vscode-high-contrast-light', light);
    assert.ok((await colours()).includes(themes['high-contrast-light'].series[0]));
    assert.equal(await host.page.locator('#one svg').getAttribute('data-same'), 'yes');
    await host.setTheme('vscode-dark', dark);
  });

  it('is as wide as its place, and follows it', async () => {
    await host.render('one', overlay);
    const width = (): Promise<number> =>
      host.page.locator('#one svg').evaluate((svg) => svg.getBoundingClientRect().width);
    const wide = await width();
    assert.ok(wide > 760 && wide <= 806, `${wide} px`);
    await host.page.setViewportSize({ width: 520, height: 900 });
    await host.page.evaluate(() => new Promise((resolve) => setTimeout(resolve, 400)));
    const narrow = await width();
    assert.ok(narrow > 460 && narrow <= 506, `${narrow} px`);
    await host.page.setViewportSize({ width: 820, height: 900 });
  });

  it('holds the height of a chart free that it takes in the end', async () => {
    for (const kind of ['spectrum', 'comparison', 'transfer', 'spectrogram', 'bands', 'running'] as const) {
      const output = present(everyValue[kind], kind, []);
      await host.render(kind, output);
      const kept = output.parts.flatMap((part) => (part.type === 'chart' ? [part.height] : []));
      const taken = await host.page
        .locator(`#${kind} .washboard-picture`)
        .evaluateAll((pictures) => pictures.map((picture) => picture.getBoundingClientRect().height));
      assert.equal(taken.length, kept.length);
      taken.forEach((height, index) =>
        assert.ok(Math.abs(kept[index] - height) <= 40, `${kind}: ${kept[index]} kept, ${height} taken`),
      );
    }
  });

  it('replaces what it drew before under the same id', async () => {
    await host.render('one', overlay);
    await host.render('one', present(everyValue.quantity, 'f', []));
    assert.equal(await host.page.locator('#one svg').count(), 0);
    assert.deepEqual(await host.page.locator('#one .washboard-text p').allTextContents(), ['4.123 Hz']);
  });

  it('lets go of what is disposed of: a later change of theme does not reach it', async () => {
    await host.render('one', overlay);
    await host.render('two', overlay);
    await host.dispose('one');
    await host.setTheme('vscode-light', light);
    const drawn = (id: string): Promise<string> => host.page.locator(`#${id} svg`).evaluate((svg) => svg.outerHTML);
    assert.ok((await drawn('two')).includes(themes.light.series[0]));
    assert.ok(!(await drawn('one')).includes(themes.light.series[0]));
    await host.setTheme('vscode-dark', dark);
  });

  it('says so when an output is of another version, unreadable or can not be drawn', async () => {
    await host.render('later', { version: 7, text: 'in words' });
    assert.match((await host.page.locator('#later').textContent()) ?? '', /version 7.*version 1.*in words/s);
    await host.render('broken', 'not json');
    assert.match((await host.page.locator('#broken').textContent()) ?? '', /can't be read/);
    const part = { ...overlay.parts[0], vega: { signals: [{ name: 'x', update: 'no expression (' }] } };
    await host.render('mark', { ...overlay, parts: [part] });
    assert.match((await host.page.locator('#mark').textContent()) ?? '', /could not be drawn/);
  });
});

describe('the renderer’s bundle', () => {
  it('stays below 460 kB, 165 kB packed', async () => {
    const script = await rendererBundle();
    assert.ok(Buffer.byteLength(script) < 460_000, `${Buffer.byteLength(script)} bytes`);
    assert.ok(gzipSync(script, { level: 9 }).length < 165_000, `${gzipSync(script, { level: 9 }).length} bytes packed`);
  });
});

import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { figureFiles, type SettingsFor } from '../../src/files/figures.ts';
import { usualSettings, type FigureSettings } from '../../src/files/figureSettings.ts';
import type { MadeFile } from '../../src/files/named.ts';
import { everyPlot, everyValue } from '../charts/everyValue.ts';
import { gave, reportOf } from './results.ts';

const all = Object.entries({ ...everyValue, ...everyPlot }).map(([name, value]) => gave(value, { name }));

async function made(settings: Partial<FigureSettings>, ...results: typeof all): Promise<readonly MadeFile[]> {
  const settingsFor: SettingsFor = () => ({ ...usualSettings, ...settings });
  const figures = await figureFiles(reportOf(...(results.length > 0 ? results : all)), settingsFor);
  return figures.ok ? figures.value.files : assert.fail(figures.failure.message);
}

const one = (settings: Partial<FigureSettings>): Promise<readonly MadeFile[]> =>
  made(settings, gave(everyValue.bands, { name: 'B' }));

const pointsOf = (svg: string): number[] => {
  const [, millimetres, units] =
    /width="([\d.]+)mm" [^>]*viewBox="0 0 ([\d.]+)/.exec(svg) ?? assert.fail(svg.slice(0, 200));
  const perUnit = (Number(millimetres) * 72) / 25.4 / Number(units);
  return [...svg.matchAll(/font-size="([\d.]+)px"/g)].map(([, size]) => Number(size) * perUnit);
};

describe('figures for print', () => {
  for (const width of [60, 85, 170])
    it(`are ${width} mm wide to the hair, with no type below 6 pt, whatever they show`, async () => {
      for (const { file, content } of await made({ width })) {
        const svg = String(content);
        assert.match(
          svg,
          new RegExp(`^<svg[^>]* width="${width}mm" height="[\\d.]+mm" viewBox="0 0 [\\d.]+ [\\d.]+"`),
          file,
        );
        assert.ok(!/NaN|undefined/.test(svg), file);
        const sizes = pointsOf(svg);
        assert.ok(sizes.length > 0 && Math.min(...sizes) >= 6, `${file}: ${Math.min(...sizes)} pt`);
      }
    });

  it('have type of the size that is asked for: the layout has less room, and nothing is scaled', async () => {
    for (const size of [6, 8, 10]) {
      const [{ content }] = await one({ width: 85, size });
      assert.ok(Math.abs(Math.min(...pointsOf(String(content))) - size) < 0.05, `${size} pt`);
    }
  });

  it('are called by the results and what they show, whatever their width', async () => {
    const some = all.filter(({ name = '' }) => ['comparison', 'verdict', 'bands', 'running'].includes(name));
    const names = async (width: number): Promise<string[]> => (await made({ width }, ...some)).map(({ file }) => file);
    const narrow = await names(85);
    assert.ok(narrow.includes('comparison-change.svg') && narrow.includes('verdict-verdict.svg'));
    assert.deepEqual(narrow, await names(170));
    assert.equal(new Set(narrow).size, narrow.length);
  });

  it('tell series apart without colour: by dash or shape, and bars by their filling', async () => {
    const [{ content: bars }] = await made({ width: 85 }, gave(everyPlot['bands'], { name: 'B' }));
    const fills = [...String(bars).matchAll(/fill-opacity="([\d.]+)"/g)].map(([, opacity]) => opacity);
    assert.ok(fills.includes('0') && fills.includes('0.6'), fills.join());
    const [{ content: lines }] = await made({ width: 85 }, gave(everyPlot['spectra'], { name: 'S' }));
    assert.match(String(lines), /stroke-dasharray="7,3"/);
  });

  it('have title and description in a text beside them where they are to have none', async () => {
    const [svg, text] = await one({ title: false });
    assert.equal(text.file, 'B-bands.txt');
    assert.match(String(text.content), /^Acceleration r\.m\.s\. in bands/);
    assert.ok(!String(svg.content).includes('in bands'));
  });

  it('ask for the file of a font that is to be embedded, and tell of letters that it lacks', async () => {
    const results = reportOf(gave({ ...everyValue.bands, set: 'foam ☃' }, { name: 'B' }));
    const asked = await figureFiles(results, () => ({ ...usualSettings, font: 'Garamond', formats: ['pdf'] }));
    assert.ok(!asked.ok && asked.failure.code === 'figures.font');
    const lacking = await figureFiles(results, () => ({ ...usualSettings, formats: ['pdf'] }));
    assert.ok(lacking.ok);
    assert.deepEqual(
      lacking.value.warnings.map(({ code }) => code),
      ['figures.letters'],
    );
    assert.match(lacking.value.warnings[0].message, /B-bands: the font lacks 1 letter .*☃/);
  });
});

describe('a figure as PNG', () => {
  it('has the dots that width and resolution ask for, and says its resolution', async () => {
    const [{ content }] = await one({ width: 85, dpi: 300, formats: ['png'] });
    const png = Buffer.from(content as Uint8Array);
    assert.equal(png.readUInt32BE(16), Math.round((85 / 25.4) * 300));
    const at = png.indexOf('pHYs');
    assert.deepEqual([png.readUInt32BE(at + 4), png.readUInt32BE(at + 8), png[at + 12]], [11811, 11811, 1]);
  });
});

describe('a figure as PDF', () => {
  let folder: string;
  const poppler = (name: string, ...args: readonly string[]): string =>
    spawnSync(name, args, { encoding: 'utf8' }).stdout;
  before(() => {
    folder = mkdtempSync(join(tmpdir(), 'washboard-pdf-'));
  });
  after(() => rmSync(folder, { recursive: true }));

  it('is the same every time, and holds no date', async () => {
    const [first] = await one({ formats: ['pdf'] });
    const [second] = await one({ formats: ['pdf'] });
    assert.ok(Buffer.from(first.content as Uint8Array).equals(Buffer.from(second.content as Uint8Array)));
    assert.ok(!Buffer.from(first.content as Uint8Array).includes('CreationDate'));
  });

  it('is read by another program: of its size, with embedded fonts and text that is text', async function () {
    if (spawnSync('pdffonts', ['-v']).error !== undefined) this.skip();
    const [{ content }] = await made({ width: 85, formats: ['pdf'] }, gave(everyValue.comparison, { name: 'C' }));
    const path = join(folder, 'a.pdf');
    writeFileSync(path, content);
    const fonts = poppler('pdffonts', path).trim().split('\n').slice(2);
    assert.ok(
      fonts.length === 2 && fonts.every((line) => /Arimo-\w+ +CID TrueType +Identity-H +yes yes yes/.test(line)),
    );
    const text = poppler('pdftotext', path, '-');
    assert.match(text, /Frequency \(Hz\)/);
    assert.match(text, /g²\/Hz/);
    assert.match(text, /−\d/);
    assert.match(poppler('pdfinfo', path), /Page size: +240\.94\d* x/);
  });
});

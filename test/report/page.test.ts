import { strict as assert } from 'node:assert';
import type { Output, Part, TablePart } from '../../src/charts/output.ts';
import { present } from '../../src/charts/present.ts';
import { reportPage } from '../../src/report/page.ts';
import { valueOf } from '../verbs/notebook.ts';
import { loadPads, pads, worked } from '../verbs/pads.ts';

/** A table of 8 runs by name and channel, with so many figures of each. */
const wide = (figures: number): TablePart => ({
  type: 'table',
  caption: 'Levels',
  columns: [
    { name: 'Run', unit: '', align: 'left' },
    { name: 'Channel', unit: '', align: 'left' },
    ...Array.from({ length: figures }, (_, k) => ({ name: `figure_${k}_`, unit: 'm/s^2', align: 'right' as const })),
  ],
  rows: Array.from({ length: 8 }, (_, run) => [
    `low-rigid-${run}`,
    'z',
    ...Array.from({ length: figures }, (__, k) => `${run}.${100 + k}`),
  ]),
});

const rawFile = { path: 'raw/a.csv', bytes: 1, sha256: '00' };

function pageOf(
  part: Part,
  faces?: { regular: string; bold: string },
  { messages = [], sources = [rawFile] }: { messages?: Output['messages']; sources?: (typeof rawFile)[] } = {},
): Promise<string> {
  const output = { version: 1, name: undefined, kind: 'table', parts: [part], messages, text: '' } as Output;
  const notebook = {
    file: 'a.washboard.md',
    pieces: [{ kind: 'cell', text: 'table L', outputs: [output] } as const],
    sources,
    tool: 'Washboard',
  };
  return reportPage(notebook, () => undefined, faces);
}

const tablesOf = (page: string): string[] => page.split('<div class="wide').slice(1, -1);
const headsOf = (table: string): string[] => [...table.matchAll(/<th scope="col"[^>]*>(\w+)/g)].map(([, name]) => name);

describe('a table on the page', () => {
  it('that fits the paper stands there once', async () => {
    const tables = tablesOf(await pageOf(wide(6)));
    assert.equal(tables.length, 1);
    assert.doesNotMatch(tables[0], /on-(screen|paper)/);
  });

  it('keeps its short cells whole on paper, so that no band is parted from its unit', async () => {
    const rows = [['20–80 Hz', 'of a run whose name may be broken after its marks']];
    const columns = ['Band', 'Note'].map((name) => ({ name, unit: '', align: 'left' as const }));
    const page = await pageOf({ type: 'table', caption: 'Levels', columns, rows });
    assert.match(page, /<td class="left whole">20–80 Hz<\/td><td class="left long">of a run/);
    assert.match(page, /td\.right, td\.whole \{ white-space: nowrap; \}/);
  });

  it('of the prose is not parted on paper, nor a verdict from its sentence', async () => {
    const page = await pageOf({ type: 'text', style: 'lead', text: 'SUPPORTED: a reduction.' });
    assert.match(page, /<div class="text lead"><p>SUPPORTED/);
    assert.match(page, /[ ,]\.lead \{ break-after: avoid; \}/);
    assert.match(page, /[ ,]\.prose table \{ break-inside: avoid; \}/);
  });

  it('that is wider than paper is parted into blocks there, each with the names of the rows and a caption', async () => {
    const [whole, ...blocks] = tablesOf(await pageOf(wide(40)));
    assert.match(whole, /^ [a-z ]*on-screen/);
    assert.equal(headsOf(whole).length, 42);
    assert.ok(blocks.length > 2);
    for (const [k, block] of blocks.entries()) {
      assert.match(block, /^ [a-z ]*on-paper/);
      assert.deepEqual(headsOf(block).slice(0, 2), ['Run', 'Channel']);
      assert.match(block, new RegExp(`<caption>Levels \\(${k + 1} of ${blocks.length}\\)</caption>`));
      assert.ok(headsOf(block).length < 20);
    }
    // No figure is lost, none is told twice.
    const figures = blocks.flatMap((block) => headsOf(block).slice(2));
    assert.deepEqual(
      figures,
      Array.from({ length: 40 }, (_, k) => `figure_${k}_`),
    );
  });
});

describe('the font of the page', () => {
  it('is embedded where its faces are given, and may be loaded from nowhere else', async () => {
    const page = await pageOf(wide(2), { regular: 'AAEC', bold: 'AwQF' });
    assert.match(page, /@font-face \{ font-family: "Arimo"; font-weight: 400; src: url\(data:font\/ttf;base64,AAEC\)/);
    assert.match(page, /font-weight: 700; src: url\(data:font\/ttf;base64,AwQF\)/);
    assert.match(page, /content="default-src 'none';[^"]* font-src data:"/);
    assert.doesNotMatch(await pageOf(wide(2)), /@font-face/);
  });
});

describe('the end of the page', () => {
  it('lists the raw files, and speaks of none where there are none', async () => {
    assert.match(await pageOf(wide(1)), /from that text and from the raw files below[^]*raw\/a\.csv/);
    const without = await pageOf(wide(1), undefined, { sources: [] });
    assert.match(without, /<h2>How to run this again<\/h2>[^]*from that text alone/);
    assert.doesNotMatch(without, /raw files/i);
  });
});

/** Lightness from 0 to 100 of a colour as grey print shows it (CIE 1976 L* of its luminance by sRGB). */
function lightness(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const part = parseInt(hex.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 116 * Math.cbrt(0.2126 * r + 0.7152 * g + 0.0722 * b) - 16;
}

describe('a chart on the page', () => {
  it('draws its conditions in colours that a grey print tells apart', async () => {
    const value = await valueOf('comparison', `${loadPads}compare foam with gel over 10..30 Hz`, pads(worked));
    const chart = present(value, undefined, []).parts.find(({ type }) => type === 'chart')!;
    const page = await pageOf(chart);
    const drawn = [...page.matchAll(/stroke="(#[0-9a-f]{6})" stroke-width="2"/g)].map(([, colour]) => colour);
    const [foam, gel] = [...new Set(drawn)];
    assert.ok(Math.abs(lightness(foam) - lightness(gel)) >= 25, `${foam} and ${gel}`);
  });
});

import { strict as assert } from 'node:assert';
import type { Output, TablePart } from '../../src/charts/output.ts';
import { reportPage } from '../../src/report/page.ts';

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
  part: TablePart,
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

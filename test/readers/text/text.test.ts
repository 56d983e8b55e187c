import { strict as assert } from 'node:assert';
import { recordingOf, refusalOf, rows } from '../memory.ts';

const table = (header: string, count = 200): string =>
  header + rows(count, (i) => [(i / 100).toFixed(2), Math.sin(i).toFixed(4), '1.00']);

describe('the layout of a text', () => {
  it('begins behind the lines that the option skips', async () => {
    const text = table('t (s),first (g),second (g)\nt (s),x (g),z (g)\n');
    const { channels, layout } = await recordingOf(text, { skip: 1 });
    assert.deepEqual(
      channels.map(({ name }) => name),
      ['x', 'z'],
    );
    assert.deepEqual([layout.headerLine, layout.firstRowLine, layout.rows], [2, 3, 200]);
  });

  it('tells its delimiter, or that its cells have labels', async () => {
    assert.equal((await recordingOf(table('t (s),x (g),z (g)\n'))).layout.delimiter, ',');
    const labelled = rows(200, (i) => [`t:${i / 100} x:${Math.sin(i).toFixed(3)} z:1.00`]);
    assert.equal((await recordingOf(labelled)).layout.delimiter, 'labels');
  });

  it('has its first row behind the mark of its encoding, whose characters take one byte or two', async () => {
    const text = table('t (s),x (g),z (g)\n');
    const marked = new TextEncoder().encode(`\ufeff${text}`);
    const wide = new Uint8Array(Uint16Array.from(`\ufeff${text}`, (one) => one.charCodeAt(0)).buffer);
    const [one, two] = [await recordingOf(marked), await recordingOf(wide)];
    assert.deepEqual([one.layout.encoding, two.layout.encoding], ['UTF-8 with BOM', 'UTF-16LE']);
    assert.deepEqual([...one.channels[0].samples], [...two.channels[0].samples]);
    assert.equal(one.layout.rows, 200);
  });

  it('is none of bytes and of lines that are no table', async () => {
    assert.equal((await refusalOf(Uint8Array.from({ length: 4000 }, (_, i) => i % 7))).code, 'not-text');
    assert.ok((await refusalOf('one line of words\nand another\nand no numbers at all\n')).message);
  });
});

describe('marks of comments before rows', () => {
  const marked = (isMarked: (i: number) => boolean): string =>
    't (s),x (g),z (g)\n' +
    rows(200, (i) => [`${isMarked(i) ? '# ' : ''}${(i / 100).toFixed(2)}`, Math.sin(i).toFixed(4), '1.00']);
  const rowsOf = async (text: string, comment?: 'none'): Promise<number> =>
    (await recordingOf(text, comment === undefined ? {} : { comment })).layout.rows;

  it('are left out where all lines but the header have them, or the option says so', async () => {
    assert.equal(await rowsOf(marked(() => true)), 200);
    const few = marked((i) => i % 20 === 19);
    assert.equal(await rowsOf(few), 190);
    assert.equal(await rowsOf(few, 'none'), 200);
  });
});

describe('a rate that comments state', () => {
  const stated = (first: string, later: string): string => {
    const row = (i: number): string[] => [Math.sin(i).toFixed(4), '1.00'];
    return `# Sample rate: ${first}\nx (g),z (g)\n${rows(100, row)}# Sample rate: ${later}\n${rows(100, row)}`;
  };
  it('holds where none further down is another', async () => {
    for (const later of ['400 Hz', '400.00001 Hz', 'as above'])
      assert.equal((await recordingOf(stated('400 Hz', later))).clock.rate, 400, later);
    for (const later of ['200 Hz', '400.1 Hz', '800 Hz'])
      assert.equal((await refusalOf(stated('400 Hz', later))).code, 'no-rate', later);
  });
});

import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { readSheet, sheetDate, sheetNumber, type SheetText } from '../../src/readers/sheet.ts';
import { source } from './memory.ts';

async function sheetOf(content: string | Uint8Array): Promise<SheetText> {
  const found = await readSheet(source(content, 'runs.csv'));
  assert.ok(found.ok, found.ok ? '' : found.failure.message);
  return found.value;
}

async function refusal(content: string | Uint8Array): Promise<string> {
  const found = await readSheet(source(content, 'runs.csv'));
  assert.ok(!found.ok);
  return found.failure.message;
}

const small = 'file,condition,speed (m/s)\na.csv,foam,1.2\nb.csv,gel,1.3\n';

describe('a run sheet', () => {
  it('is read as the study’s own is written', async () => {
    const path = new URL('../../samples/raw/runs.csv', import.meta.url);
    const { columns, rows } = await sheetOf(readFileSync(path));
    assert.equal(columns.length, 11);
    assert.deepEqual(columns[5], { header: 'speed (m/s)', name: 'speed', unit: 'm/s' });
    assert.equal(rows.length, 17);
    assert.equal(rows[4].cells[10], 'broken off; rule 1: the whole path without a stop');
    assert.equal(rows[4].line, 6);
  });

  it('may be delimited by semicolons or tabs, and carry a byte order mark', async () => {
    const expected = await sheetOf(small);
    assert.deepEqual(await sheetOf(small.replaceAll(',', ';')), expected);
    assert.deepEqual(await sheetOf(small.replaceAll(',', '\t')), expected);
    assert.deepEqual(await sheetOf('\ufeff' + small), expected);
    const wide = Buffer.from('\ufeff' + small, 'utf16le');
    assert.deepEqual(await sheetOf(wide), expected);
    assert.deepEqual(await sheetOf(small.replaceAll('\n', '\r\n')), expected);
  });

  it('keeps the line of each row past comments, blank lines and notes of several lines', async () => {
    const { rows } = await sheetOf('# Tuesday\nfile,note\n\na.csv,"two\nlines, quoted"\n# later\nb.csv,\n');
    assert.deepEqual(
      rows.map(({ line, cells }) => [line, cells[0]]),
      [
        [4, 'a.csv'],
        [7, 'b.csv'],
      ],
    );
  });

  it('takes a short row as one whose last cells are blank', async () => {
    assert.deepEqual((await sheetOf('file,condition,note\na.csv,foam')).rows[0].cells, ['a.csv', 'foam', '']);
  });

  it('is refused where a row has more cells than the header, and the line is named', async () => {
    assert.match(await refusal('file,note\na.csv,dry, 16 C\n'), /^runs.csv:2 has 3 cells and the header 2: put quotes/);
  });

  it('is refused when it is empty, no text, or has two columns of one name', async () => {
    assert.match(await refusal(''), /runs.csv is empty/);
    assert.match(await refusal(Uint8Array.from({ length: 64 }, (_, i) => i % 8)), /no text/);
    assert.match(await refusal('file,speed (m/s),Speed (km/h)\n'), /^\S+:1: two columns are called speed/);
    assert.match(await refusal('# of the corridor\n\nfile,x,x\n'), /^\S+:3: two columns are called x/);
  });
});

describe('a cell of a run sheet', () => {
  it('is a number with a point or a comma', () => {
    assert.deepEqual(['1.18', '1,18', '-4', '', 'fast', '1.2.3'].map(sheetNumber), [
      1.18,
      1.18,
      -4,
      undefined,
      undefined,
      undefined,
    ]);
  });

  it('is a date, with or without its time', () => {
    assert.equal(sheetDate('2025-05-13'), Date.UTC(2025, 4, 13) / 1000);
    assert.equal(sheetDate('2025-05-13T09:41'), Date.UTC(2025, 4, 13, 9, 41) / 1000);
    assert.equal(sheetDate('2025-05-13 9:41:30'), Date.UTC(2025, 4, 13, 9, 41, 30) / 1000);
    assert.equal(sheetDate('2025-05-13T09:41+02:00'), Date.UTC(2025, 4, 13, 7, 41) / 1000);
    assert.deepEqual(['13.5.2025', '', 'Tuesday', '2025-13-45'].map(sheetDate), [
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });
});

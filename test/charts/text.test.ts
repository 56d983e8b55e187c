import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import type { TablePart } from '../../src/charts/output.ts';
import { messageText, outputText, partsText, tableText } from '../../src/charts/text.ts';

const table: TablePart = {
  type: 'table',
  caption: 'Levels of foam',
  columns: [
    { name: 'Run', unit: '', align: 'left' },
    { name: 'R.m.s.', unit: 'm/s^2', align: 'right' },
  ],
  rows: [
    ['a1', '0.3000'],
    ['brick-10', '12.00'],
  ],
};

describe('tableText', () => {
  it('tells the first of very many rows and how many more there are, and all of 200', () => {
    const rowsOf = (count: number): string[][] => Array.from({ length: count }, (_, row) => [`r${row}`, '1']);
    const linesOf = (count: number): string[] => tableText({ ...table, rows: rowsOf(count) }).split('\n');
    assert.equal(linesOf(200).length, 203);
    const lines = linesOf(5000);
    assert.equal(lines.length, 104);
    assert.match(lines[102], /^r99 /);
    assert.match(lines[103], /4900 more rows; `washboard tables` writes all of them/);
  });

  it('sets figures under one another on the right, words on the left', () => {
    assert.equal(
      tableText(table),
      [
        'Levels of foam',
        'Run       R.m.s. (m/s²)',
        '--------  -------------',
        'a1               0.3000',
        'brick-10          12.00',
      ].join('\n'),
    );
  });

  it('keeps a cell on one line, and a table without caption or rows whole', () => {
    assert.ok(tableText({ ...table, rows: [['two\nlines', '1']] }).includes('two lines'));
    assert.equal(tableText({ ...table, caption: '', rows: [] }).split('\n').length, 2);
  });

  it('starts every column at the same place in every line', () => {
    const cell = fc.stringMatching(/^[a-zé²–]{1,12}$/);
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { minLength: 1 }), (rows) => {
        const text = tableText({
          ...table,
          caption: '',
          columns: table.columns.map((column) => ({ ...column, align: 'left' })),
          rows,
        });
        const rule = text.split('\n')[1];
        const second = rule.indexOf('  ') + 2;
        text.split('\n').forEach((line, index) => {
          if (index === 1) return;
          assert.equal([...line][second - 1], ' ');
          assert.notEqual([...line][second], ' ');
        });
      }),
    );
  });
});

describe('the plain text of an output', () => {
  const warning = { severity: 'warning', code: 'gap', message: 'There is a gap.', where: 'cell 3, line 2' } as const;

  it('says severity, code, place and sentence of a message', () => {
    assert.equal(messageText(warning), 'warning gap (cell 3, line 2): There is a gap.');
    assert.equal(messageText({ severity: 'note', code: 'n', message: 'So it is.' }), 'note n: So it is.');
  });

  it('holds name, parts and messages; without parts the messages alone', () => {
    assert.equal(
      outputText('L', [{ type: 'text', text: '4 Hz' }], [warning]),
      'L:\n4 Hz\nwarning gap (cell 3, line 2): There is a gap.',
    );
    assert.equal(outputText('L', [], [warning]), messageText(warning));
  });

  it('gives a chart by its title, settings and words', () => {
    const chart = {
      type: 'chart',
      what: 'x',
      title: 'T',
      subtitle: '',
      height: 1,
      vega: {},
      description: 'D.',
    } as const;
    assert.equal(partsText([chart, { type: 'text', text: 'x' }]), '[chart] T\nD.\n\nx');
  });
});

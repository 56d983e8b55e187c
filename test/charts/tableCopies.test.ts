import { strict as assert } from 'node:assert';
import type { TablePart } from '../../src/charts/output.ts';
import { tableCsv, tableMarkdown, tableTsv } from '../../src/charts/tableCopies.ts';

const table: TablePart = {
  type: 'table',
  caption: 'Changes',
  columns: [
    { name: 'run', unit: '', align: 'left' },
    { name: 'change', unit: '%', align: 'right' },
    { name: 'density', unit: 'g^2/Hz', align: 'right' },
  ],
  rows: [
    ['foam, a|b', '−21.5', '1\u202f200'],
    ['say "gel"', '3.0', '0.5'],
  ],
};

describe('a shown table, copied', () => {
  it('has tabs between its columns for a spreadsheet, and figures that it reads', () => {
    assert.equal(tableTsv(table), 'run\tchange (%)\tdensity (g²/Hz)\nfoam, a|b\t-21.5\t1200\nsay "gel"\t3.0\t0.5\n');
  });

  it('is quoted in CSV where it has to be', () => {
    assert.equal(tableCsv(table), 'run,change (%),density (g²/Hz)\n"foam, a|b",-21.5,1200\n"say ""gel""",3.0,0.5\n');
  });

  it('is a table in Markdown, with figures as they are shown', () => {
    assert.equal(
      tableMarkdown(table),
      '| run | change (%) | density (g²/Hz) |\n| --- | --: | --: |\n| foam, a\\|b | −21.5 | 1\u202f200 |\n| say "gel" | 3.0 | 0.5 |\n'.replace(
        '\u202f',
        ' ',
      ),
    );
  });
});

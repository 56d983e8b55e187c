import { strict as assert } from 'node:assert';
import { shownOver } from '../../../src/charts/closer.ts';
import { cellGrid } from '../../../src/charts/plots/spectrogramCells.ts';
import type { ReadsCells } from '../../../src/charts/reads.ts';
import type { ChartPart } from '../../../src/charts/output.ts';
import { present } from '../../../src/charts/present.ts';
import { cellsOf } from '../../../src/renderer/handles/cells.ts';
import type { AxisRange } from '../../../src/charts/making.ts';
import { everyValue } from '../../charts/everyValue.ts';
import { foamSpectrum } from '../../charts/madeUp.ts';

type Cells = NonNullable<ReturnType<typeof cellsOf>>;

const value = everyValue.spectrogram;
const [entry] = value.entries;
const chart = (over?: AxisRange, of: Parameters<typeof present>[0] = value): ChartPart =>
  shownOver(over, () => present(of, undefined, []).parts.find((part) => part.type === 'chart')!);

describe('the levels of a spectrogram as they are read', () => {
  let cells: Cells;
  before(() => {
    cells = cellsOf(chart()) ?? assert.fail('no cells');
  });

  it('are those of the picture in each row and column, to 0.4 %, and none where nothing was measured', () => {
    const data = chart().vega['data'] as readonly { readonly name: string; readonly values?: readonly ReadsCells[] }[];
    const { time, frequency } = data.find(({ name }) => name === 'readings')?.values?.[0] ?? assert.fail('no readings');
    const { rows, columns, level } = cellGrid(entry, time, frequency, 'linear');
    assert.deepEqual([cells.rows, cells.places.length], [rows, columns]);
    for (let row = 0; row < rows; row++)
      cells.curve(row).low.forEach((read, column) => {
        const known = level[row * columns + column];
        assert.equal(read === null, Number.isNaN(known));
        if (read !== null) assert.ok(Math.abs(read / 10 ** known - 1) < 0.004, `${read}, ${10 ** known}`);
      });
  });

  it('are found again at a frequency and at a height', () => {
    for (const row of [0, 7, cells.rows - 1]) {
      const { frequency, share } = cells.middleOf(row);
      assert.deepEqual([cells.rowOf(frequency), cells.rowAt(share)], [row, row]);
    }
  });

  it('are finer over a stretch of the time, and mean the same colour', () => {
    const [from, to] = [entry.times[2], entry.times[6]];
    const closer = chart({ axis: 'time', from, to });
    const near = cellsOf(closer) ?? assert.fail('no cells');
    assert.ok(near.places[0] > from && near.places.at(-1)! < to);
    assert.notEqual(near.places.length, cells.places.length);
    const domain = (part: ChartPart): string =>
      JSON.stringify((part.vega['scales'] as readonly { name: string }[]).find(({ name }) => name === 'color'));
    assert.equal(domain(closer), domain(chart()));
  });

  it('are of no other chart', () => assert.equal(cellsOf(chart(undefined, foamSpectrum)), undefined));
});

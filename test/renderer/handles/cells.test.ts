import { strict as assert } from 'node:assert';
import { shownOver } from '../../../src/charts/closer.ts';
import type { ChartPart } from '../../../src/charts/output.ts';
import { present } from '../../../src/charts/present.ts';
import { cellsOf } from '../../../src/renderer/handles/cells.ts';
import type { AxisRange } from '../../../src/charts/making.ts';
import { everyValue } from '../../charts/everyValue.ts';
import { foamSpectrum } from '../../charts/madeUp.ts';

const value = everyValue.spectrogram;
const [entry] = value.entries;
const chart = (over?: AxisRange, of: Parameters<typeof present>[0] = value): ChartPart =>
  shownOver(over, () => present(of, undefined, []).parts.find((part) => part.type === 'chart')!);

describe('the levels of a spectrogram as they are read', () => {
  const cells = cellsOf(chart()) ?? assert.fail('no cells');

  it('are those of the spectrogram at each place and height, to 0.4 %', () => {
    let compared = 0;
    for (const bin of [5, 20, 60]) {
      const { at, low } = cells.curve(cells.rowOf(bin * entry.spacing));
      entry.times.forEach((time, segment) => {
        const column = at.reduce(
          (best, place, index) => (Math.abs(place - time) < Math.abs(at[best] - time) ? index : best),
          0,
        );
        const read = low[column];
        if (read === null || Math.abs(at[column] - time) > 0.01) return;
        // A row is as high as some bins, and shows the highest of them.
        const row = cells.rowOf(bin * entry.spacing);
        const bins = Array.from({ length: entry.bins - 1 }, (_, one) => one + 1).filter(
          (one) => cells.rowOf(one * entry.spacing) === row,
        );
        // Of segments that overlap a column shows the highest.
        const near = [segment - 1, segment, segment + 1].filter((one) => one >= 0 && one < entry.times.length);
        const levels = near.flatMap((one) => bins.map((k) => entry.density[one * entry.bins + k]));
        assert.ok(
          levels.some((level) => Math.abs(read / level - 1) < 0.004),
          `${read}: ${levels.join()}`,
        );
        compared++;
      });
    }
    assert.ok(compared > 20, String(compared));
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

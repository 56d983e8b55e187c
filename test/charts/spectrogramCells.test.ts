import { strict as assert } from 'node:assert';
import { cellGrid, colourPaths, levelSpan } from '../../src/charts/plots/spectrogramCells.ts';
import type { SpectrogramEntry } from '../../src/values/spectrogram.ts';
import { foam } from './madeUp.ts';
import { madeSpectrogram } from './madeUpMore.ts';

const [entry] = madeSpectrogram(foam.runs[0]).entries;
const time = { from: entry.times[0] - 0.5, to: entry.times[entry.times.length - 1] + 0.5 };

describe('the cells of a spectrogram', () => {
  it('keep the highest level and leave a gap empty', () => {
    const grid = cellGrid(entry, time, { from: 0, to: 175 }, 'linear');
    const known = [...grid.level].filter((level) => !Number.isNaN(level));
    const top = Math.max(...entry.density);
    assert.ok(Math.abs(Math.max(...known) - Math.log10(top)) < 1e-12);
    assert.ok(known.length < grid.level.length);
  });

  it('show one loud bin of one segment in its place, on either axis', () => {
    const density = new Float64Array(entry.density.length).fill(1e-6);
    density[10 * entry.bins + 50] = 1;
    const single: SpectrogramEntry = { ...entry, density };
    for (const [scale, from] of [
      ['linear', 0],
      ['log', 1],
    ] as const) {
      const { level, columns, rows } = cellGrid(single, time, { from, to: 175 }, scale);
      const cell = level.findIndex((value) => value === 0);
      const at = time.from + ((cell % columns) + 0.5) * ((time.to - time.from) / columns);
      const share = (Math.floor(cell / columns) + 0.5) / rows;
      const frequency = scale === 'log' ? from * (175 / from) ** share : from + (175 - from) * share;
      assert.ok(Math.abs(at - entry.times[10]) <= 1, `${at} s`);
      assert.ok(Math.abs(frequency - 50) <= 3, `${frequency} Hz`);
    }
  });

  it('cover every known cell by exactly one path', () => {
    const grid = cellGrid(entry, time, { from: 0, to: 175 }, 'linear');
    const span = levelSpan(grid);
    assert.ok(span !== undefined);
    let covered = 0;
    for (const { d } of colourPaths(grid, span))
      for (const [, length] of d.matchAll(/h(\d+)\.05v/g)) covered += Number(length);
    assert.equal(covered, grid.level.filter((level) => !Number.isNaN(level)).length);
  });

  it('span 2 to 6 powers of ten, up to the highest', () => {
    const flat = { columns: 2, rows: 1, level: Float64Array.from([-3, -3]) };
    assert.deepEqual(levelSpan(flat), { from: -5, to: -3 });
    const deep = { columns: 3, rows: 1, level: Float64Array.from([-30, -20, -3]) };
    assert.deepEqual(levelSpan(deep), { from: -9, to: -3 });
    assert.equal(levelSpan({ columns: 1, rows: 1, level: Float64Array.from([NaN]) }), undefined);
  });
});

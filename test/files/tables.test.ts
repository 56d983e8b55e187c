import { strict as assert } from 'node:assert';
import { parquetReadObjects } from 'hyparquet';
import type { StatementResult } from '../../src/engine/result.ts';
import { tableFiles } from '../../src/files/tables.ts';
import { comparison, everyValue, plotOf } from '../charts/everyValue.ts';
import { gave, reportOf } from './results.ts';

const csv = async (...results: readonly StatementResult[]): Promise<Record<string, string>> => {
  const files = await tableFiles(reportOf(...results), 'csv');
  return Object.fromEntries(files.map(({ file, content }) => [file, String(content)]));
};

const lines = (text: string): string[] => text.trimEnd().split('\n');

describe('the tables of a notebook as files', () => {
  it('are one a result by its name, and what is neither named nor shown has none', async () => {
    const { levels, bands } = everyValue;
    const files = await csv(
      gave(levels, { name: 'L' }),
      gave(bands, { called: 'band-S' }),
      gave(bands, { called: 'band-T', shown: false }),
      gave(levels, { name: 'hidden', shown: false }),
      gave(levels, { called: 'L', shows: 'L' }),
    );
    assert.deepEqual(Object.keys(files), ['L.csv', 'band-S.csv', 'hidden.csv']);
    assert.match(lines(files['L.csv'])[0], /^run,channel,mean \(g\),rms \(g\)/);
    assert.equal(lines(files['L.csv']).length, 1 + levels.rows.length);
  });

  it('differ in more than capitals, and none has the name of a device', async () => {
    const { levels } = everyValue;
    const files = await csv(...['a', 'A', 'con', 'levels a/b'].map((called) => gave(levels, { called })));
    assert.deepEqual(Object.keys(files), ['a.csv', 'A-2.csv', 'con-.csv', 'levels-a-b.csv']);
  });

  it('give spectra in long form: a row a bin of each run and of the mean, with its limits', async () => {
    const { spectrum } = everyValue;
    const rows = lines((await csv(gave(spectrum, { name: 'S' })))['S.csv']);
    assert.equal(rows[0], 'run,channel,frequency (Hz),density (g^2/Hz),low (g^2/Hz),high (g^2/Hz)');
    const curves = [...spectrum.entries, ...spectrum.means];
    assert.equal(
      rows.length - 1,
      curves.reduce((sum, { level }) => sum + level.length, 0),
    );
    const { run, channel, spacing, level, low, high } = spectrum.entries[0];
    assert.equal(rows[4], [run.label, channel.name, 3 * spacing, level[3], low[3], high[3]].join(','));
    assert.match(rows[rows.length - 1], /^mean,/);
  });

  it('hold the level of each run beside a comparison', async () => {
    const files = await csv(gave(comparison, { name: 'C' }));
    assert.deepEqual(Object.keys(files), ['C.csv', 'C-runs.csv']);
    const rows = lines(files['C-runs.csv']);
    assert.equal(rows[0].split(',').slice(0, 5).join(), 'condition,run,place,from (Hz),to (Hz)');
    assert.equal(rows.length - 1, comparison.rows.length * (comparison.a.runs.length + comparison.b.runs.length));
    const [first] = comparison.rows;
    const cells = rows[1].split(',');
    assert.deepEqual([cells[0], cells[1]], [comparison.a.name, comparison.a.runs[0].label]);
    assert.equal(Number(cells[5]), first.aRuns[0]);
  });

  it('take all quantities into one, and of a plot what has no name of its own', async () => {
    const { quantity, bands } = everyValue;
    const files = await csv(
      gave(quantity, { name: 'f' }),
      gave(plotOf([bands]), { called: 'plot' }),
      gave({ ...plotOf([]), subjects: [{ name: 'B', value: bands }] }, { called: 'plot-B' }),
    );
    assert.deepEqual(Object.keys(files), ['plot-bands.csv', 'quantities.csv']);
    assert.equal(files['quantities.csv'], 'name,value,unit\nf,4.1234,Hz\n');
  });

  it('hold the same in Parquet: numbers as numbers, and nothing where there is no figure', async () => {
    for (const value of Object.values(everyValue)) {
      const asCsv = await csv(gave(value, { name: 'x' }));
      for (const { file, content } of await tableFiles(reportOf(gave(value, { name: 'x' })), 'parquet')) {
        assert.ok(content instanceof Uint8Array);
        const rows = await parquetReadObjects({ file: new Uint8Array(content).buffer });
        const text = asCsv[file.replace('.parquet', '.csv')];
        assert.equal(rows.length, lines(text).length - 1, `${value.kind}: ${file}`);
      }
    }
    const [{ content }] = await tableFiles(reportOf(gave(everyValue.table, { name: 't' })), 'parquet');
    const rows = await parquetReadObjects({ file: new Uint8Array(content as Uint8Array).buffer });
    assert.deepEqual(rows, [
      { Run: 'a1', 'R.m.s. (g)': 0.3 },
      { Run: 'a2', 'R.m.s. (g)': null },
    ]);
  });
});

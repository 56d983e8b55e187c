import { strict as assert } from 'node:assert';
import { shockResponse } from '../../../src/signal/shock.ts';
import { present } from '../../../src/charts/present.ts';
import { toJson } from '../../../src/values/json.ts';
import { tabulate } from '../../../src/values/tabulate.ts';
import { errorOf, near, recordingOf, valueOf } from '../notebook.ts';

/** Half a second of rest, a half sine of 2 g and 20 ms, and rest, on top of 1 g. */
const pulse = (t: number): number => (t > 0.5 && t < 0.52 ? 2 * Math.sin((Math.PI * (t - 0.5)) / 0.02) : 0);
const files = {
  'a.csv': recordingOf({ x: () => 0, z: (t) => 1 + pulse(t) }, { rate: 2000, seconds: 2 }),
};
const load = 'r = load "a.csv" unit g | channel z\n';

describe('shock', () => {
  it('gives twelve oscillators an octave, each with the largest response about the rest of the run', async () => {
    const { columns, rows } = tabulate(await valueOf('shock', `${load}shock r damping 5 % over 10..80 Hz`, files))!;
    assert.deepEqual(
      columns.map(({ name, unit }) => [name, unit]),
      [
        ['run', ''],
        ['channel', ''],
        ['natural frequency', 'Hz'],
        ['maximax', 'g'],
        ['positive', 'g'],
        ['negative', 'g'],
        ['residual', 'g'],
      ],
    );
    assert.equal(rows.length, 37);
    const at40 = rows[24];
    assert.ok(Math.abs(Number(at40[2]) - 40) < 1e-9);
    const input = Float64Array.from({ length: 4000 }, (_, n) => Number((1 + pulse(n / 2000)).toFixed(9)) - 1);
    const { maximax, residual } = shockResponse(input, 2000, [40], 0.05);
    near(Number(at40[3]), maximax[0], 1e-9);
    near(Number(at40[6]), residual[0], 1e-9);
    // 1.65 times the pulse is the most that a half sine gives with this damping.
    near(Math.max(...rows.map((row) => Number(row[3]))), 2 * 1.65, 0.01);
  });

  it('has 5 % damping and ends at a tenth of the rate unless said', async () => {
    const { caption, rows } = tabulate(await valueOf('shock', `${load}shock r`, files))!;
    assert.match(caption, /damping 5 %/);
    assert.ok(Number(rows.at(-1)![2]) <= 200 && Number(rows.at(-1)![2]) > 180 && Number(rows[0][2]) === 1);
  });

  it('is a kind of its own: fields, units, JSON by arrays, and a chart over the natural frequency', async () => {
    const S = `${load}S = shock r damping 5 % over 10..80 Hz\n`;
    const { entries } = await valueOf('shock', `${S}S`, files);
    const top = Math.max(...entries[0].maximax);
    const largest = await valueOf('quantity', `${S}S.largest in m/s^2`, files);
    near(largest.quantity.value, top * 9.80665, 1e-9);
    near(
      (await valueOf('shock', `${S}S in m/s^2`, files)).entries[0].residual[3],
      entries[0].residual[3] * 9.80665,
      1e-9,
    );
    const at = await valueOf('quantity', `${S}S.largest_at`, files);
    assert.equal(at.quantity.value, entries[0].frequencies[entries[0].maximax.indexOf(top)]);
    const { runs } = toJson(await valueOf('shock', `${S}S`, files)) as { runs: Record<string, number[]>[] };
    assert.deepEqual(runs[0]['residual'], [...entries[0].residual]);
    const [chart] = present(await valueOf('chart', `${S}plot S over 20..80 Hz scale dB`, files), undefined, []).parts;
    assert.ok(chart.type === 'chart');
    const scales = (chart.vega as { scales: { name: string; type: string; domain: number[] }[] }).scales;
    const x = scales.find(({ name }) => name === 'x')!;
    assert.deepEqual([x.type, x.domain], ['log', [20, 80]]);
    assert.match(chart.description, /^a: largest \d+\.\d dB re 1e-6 m\/s² at 4\d.* Hz; after the end /);
    const table = tabulate(await valueOf('table', `${S}table S scale dB`, files))!;
    assert.equal(table.columns[3].unit, 'dB re 1e-6 m/s^2');
  });

  it('refuses natural frequencies near the rate and a resultant', async () => {
    const { code, message } = await errorOf(`${load}shock r over 10..400 Hz`, files);
    assert.equal(code, 'shock.rate');
    assert.match(message, /200 Hz for a, not 400 Hz.*resample r 4000 Hz/);
    const { code: other } = await errorOf('r = load "a.csv" unit g\nshock (resultant r) over 10..80 Hz', files);
    assert.equal(other, 'shock.resultant');
  });
});

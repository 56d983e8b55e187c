import { strict as assert } from 'node:assert';
import { present } from '../../../src/charts/present.ts';
import { toJson } from '../../../src/values/json.ts';
import { signalsOf } from '../../../src/values/run.ts';
import { errorOf, near, noise, recordingOf, resultOf, sine, valueOf, warningsOf } from '../notebook.ts';

const load = 'r = load "a.csv"\n';
/** A sine of 10 Hz, √2/2 g r.m.s. 0.5, at right angles to gravity. */
const beside = { 'a.csv': recordingOf({ 'x (g)': sine(10, Math.SQRT1_2), 'y (g)': () => 0, 'z (g)': () => 1 }) };
/** Sines of three frequencies, gravity on z. */
const three = {
  'a.csv': recordingOf({ 'x (g)': sine(8, 0.3), 'y (g)': sine(12, 0.2, -0.1), 'z (g)': sine(20, 0.4, 1) }),
};

const chartOf = async (text: string): Promise<unknown> => present(await valueOf('chart', text, three), undefined, []);

describe('resultant', () => {
  it('carries the axes with their means, as one channel', async () => {
    const [run] = (await valueOf('runs', `${load}resultant r`, three)).runs;
    assert.deepEqual(
      run.channels.map(({ name, unit, includesStatic }) => [name, unit.symbol, includesStatic]),
      [['resultant', 'g', true]],
    );
    assert.deepEqual(
      signalsOf(run).map(({ name, samples }) => [name, Math.round(10 * samples[0])]),
      [
        ['x', 0],
        ['y', -1],
        ['z', 10],
      ],
    );
  });

  it('of a sine beside gravity has its r.m.s. and peak, at its frequency', async () => {
    const [row] = (await valueOf('levels', `${load}r | resultant | levels`, beside)).rows;
    near(row.rms, 0.5, 1e-6);
    near(row.peak, Math.SQRT1_2, 1e-6);
    near(row.mean, 1, 1e-9);
    near(row.totalRms, Math.sqrt(1.25), 1e-6);
    near(row.crestFactor ?? NaN, Math.SQRT2, 1e-6);
    const [highest] = (await valueOf('peaks', `${load}r | resultant | spectrum | peaks 2..80 Hz`, beside)).rows;
    near(highest.frequency, 10, 1e-9);
    assert.equal(highest.run, 'a');
    near(highest.level * 0.75, 0.5 ** 2, 1e-3);
    const { rows } = await valueOf('bands', `${load}r | resultant | spectrum | band 8..12 Hz, 18..22 Hz`, beside);
    near(rows[0].rms, 0.5, 1e-6);
    assert.ok(rows[1].rms < 1e-6);
  });

  it('leaves out what is of one axis alone: dose, kurtosis, skewness and peak to peak', async () => {
    const [row] = (await valueOf('levels', `${load}r | resultant | levels`, three)).rows;
    assert.deepEqual(
      [row.vdv, row.kurtosis, row.skewness, row.peakToPeak],
      [undefined, undefined, undefined, undefined],
    );
    assert.match((await errorOf(`${load}x = r | resultant | levels\nx.vdv`, three)).message, /vdv/);
  });

  it('sums the axes’ mean squares in every measure', async () => {
    const all = Math.sqrt((0.3 ** 2 + 0.2 ** 2 + 0.4 ** 2) / 2);
    const resultant = `${load}s = resultant r\n`;
    const [running] = (await valueOf('running', `${resultant}running s over 1 s`, three)).entries;
    near(running.largest, all, 1e-6);
    const { rows } = await valueOf('bands', `${resultant}s | spectrum | band 6..14 Hz, 14..30 Hz`, three);
    near(rows[0].rms, Math.sqrt((0.3 ** 2 + 0.2 ** 2) / 2), 1e-5);
    near(rows[1].rms, 0.4 * Math.SQRT1_2, 1e-5);
    const [of] = (await valueOf('spectrogram', `${resultant}spectrogram s`, three)).entries;
    const each = await valueOf('spectrogram', `${load}spectrogram r`, three);
    of.density.forEach((value, i) =>
      near(1 + value, 1 + each.entries.reduce((sum, { density }) => sum + density[i], 0), 1e-9),
    );
  });

  it('is trimmed, filtered, integrated, resampled and rid of its means axis by axis', async () => {
    for (const step of [
      'trim 2..9 s',
      'highpass 3 Hz',
      'integrate to velocity',
      'resample 300 Hz',
      'detrend',
      'detrend linear',
    ]) {
      const before = await valueOf('levels', `${load}r | ${step} | resultant | levels`, three);
      const after = await valueOf('levels', `${load}r | resultant | ${step} | levels`, three);
      for (const figure of ['rms', 'totalRms', 'peak', 'mean', 'percentile99', 'duration'] as const)
        assert.equal(after.rows[0][figure], before.rows[0][figure], `${step}: ${figure}`);
      assert.equal(after.rows[0].channel.includesStatic, before.rows[0].channel.includesStatic);
      assert.equal(after.rows[0].channel.unit.symbol, before.rows[0].channel.unit.symbol);
    }
  });

  it('is weighted by one weighting, or by one an axis', async () => {
    const before = await valueOf('levels', `${load}r | weight wd wd wk | resultant | levels`, three);
    const after = await valueOf('levels', `${load}r | resultant | weight wd wd wk | levels`, three);
    assert.equal(after.rows[0].rms, before.rows[0].rms);
    assert.equal(after.rows[0].channel.weighting, 'Wd/Wd/Wk');
    const alike = await valueOf('levels', `${load}r | resultant | weight wk | levels`, three);
    assert.equal(alike.rows[0].channel.weighting, 'Wk');
    const { code, message } = await errorOf(`${load}r | resultant | weight wd wk`, three);
    assert.equal(code, 'weight.count');
    assert.match(message, /has the axes x, y, z, and 2 weightings are given/);
  });

  it('is held against the published ranges by its axes, as these are by themselves', async () => {
    const shock = {
      'a.csv': recordingOf({
        'x (g)': (t, i) => (i === 2000 ? 3 : sine(4, 0.02)(t)),
        'y (g)': sine(5, 0.02),
        'z (g)': sine(6, 0.02, 1),
      }),
    };
    for (const files of [three, shock]) {
      const own = await resultOf(`${load}r | weight wd wd wk | levels`, files);
      const found = await resultOf(`${load}r | resultant | weight wd wd wk | levels`, files);
      assert.ok(own.value?.kind === 'levels' && found.value?.kind === 'levels');
      assert.equal(found.value.exposure?.rows.length, 1);
      const withoutRun = (value: typeof own.value): unknown => value.exposure?.rows.map(({ run: _run, ...row }) => row);
      assert.deepEqual(withoutRun(found.value), withoutRun(own.value));
      assert.deepEqual(found.warnings, own.warnings);
    }
    const { warnings } = await resultOf(`${load}r | resultant | weight wd wd wk | levels`, shock);
    assert.ok(warnings.some(({ code }) => code === 'levels.additional'));
  });

  it('is integrated with one word on the low cut, by the power of all axes', async () => {
    const random = noise(9);
    const hidden = {
      'a.csv': recordingOf(
        { 'x (g)': sine(29.3, 0.2), 'y (g)': () => 1e-4 * random(), 'z (g)': sine(37.7, 0.2, 1) },
        { rate: 400 },
      ),
      'b.csv': recordingOf(
        { 'x (g)': sine(1.5, 0.02), 'y (g)': sine(1.4, 0.02), 'z (g)': sine(37.7, 0.2, 1) },
        { rate: 400 },
      ),
    };
    const told = async (text: string): Promise<string[]> =>
      (await resultOf(`${text} | integrate to velocity above 1 Hz`, hidden)).warnings.map(({ message }) => message);
    assert.match((await told('load "a.csv"')).join(), /of a, y, lies between 1 Hz and 2 Hz/);
    assert.deepEqual(await told('load "a.csv" | resultant'), []);
    assert.match(
      (await told('load "b.csv" | resultant')).join(),
      /of b, resultant, lies between 1 Hz and 2 Hz[^.]*\.$/,
    );
  });

  it('leaves cells blank, and says nothing of what it has not, in tables and JSON', async () => {
    const value = await valueOf('levels', `${load}r | resultant | levels`, three);
    const { rows } = toJson(value) as { rows: Record<string, unknown>[] };
    assert.deepEqual(
      ['vdv', 'kurtosis', 'skewness', 'peak_to_peak'].map((key) => rows[0][key]),
      [null, null, null, null],
    );
    assert.doesNotMatch(
      JSON.stringify([present(value, 'L', []), await chartOf(`${load}r | resultant | levels | plot`)]),
      /NaN|undefined/,
    );
  });

  it('refuses one channel, several units, and runs of other axes', async () => {
    const other = { 'a-1.csv': three['a.csv'], 'a-2.csv': recordingOf({ 'x (g)': sine(5), 'y (g)': sine(7) }) };
    assert.equal((await errorOf(`${load}r | channel z | resultant`, three)).code, 'channel.few');
    const mixed = { 'a.csv': recordingOf({ 'x (g)': sine(5), 'y (g)': sine(6), 'v (m/s)': sine(7) }) };
    assert.equal((await errorOf('load "a.csv" channel x, v | resultant', mixed)).code, 'unit.mixed');
    const { code, message } = await errorOf('load "a-*.csv" | resultant', other);
    assert.equal(code, 'resultant.axes');
    assert.match(message, /of x, y and z, and that of .* of x and y: take the same axes/);
  });

  it('has no frequency response, for it has no phase', async () => {
    const { code, message } = await errorOf(`${load}r | resultant | transfer from x to z`, three);
    assert.equal(code, 'transfer.resultant');
    assert.match(message, /no phase: .* x, y and z/);
  });

  it('has the faults of its axes', async () => {
    const random = noise(5);
    const stops = (value: number): number => Math.min(0.5, Math.max(-0.5, value));
    const clipped = {
      'a.csv': recordingOf({ 'x (g)': () => stops(0.4 * random()), 'z (g)': () => 1 + 0.1 * random() }),
    };
    const own = (await valueOf('findings', `${load}check r`, clipped)).rows.map(({ finding }) => finding);
    const found = (await valueOf('findings', `${load}r | resultant | check`, clipped)).rows.map(
      ({ finding }) => finding,
    );
    assert.ok(found.some(({ code, channel }) => code === 'clipped' && channel === 'x'));
    assert.deepEqual(found, own);
    assert.deepEqual(
      await warningsOf(`${load}r | resultant | levels`, clipped),
      await warningsOf(`${load}levels r`, clipped),
    );
  });

  it('is drawn as the length of its vector, which title and axis say', async () => {
    const chart = await valueOf('chart', `${load}r | trim 3..9 s | resultant | plot`, three);
    const drawn = JSON.stringify(present(chart, undefined, []));
    assert.match(drawn, /Length of the acceleration vector over time/);
    assert.match(drawn, /resultant of x, y and z/);
    assert.match(drawn, /Length of the acceleration vector \(g\)/);
  });
});

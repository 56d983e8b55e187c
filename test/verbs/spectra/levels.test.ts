import { strict as assert } from 'node:assert';
import { near, recordingOf, resultOf, sine, valueOf } from '../notebook.ts';

const load = 'r = load "a.csv" unit m/s^2\n';
/** A sine of 1 m/s² at 8 Hz with one second of three times as much from 12 s on. */
const burst = {
  'a.csv': recordingOf({ z: (t) => sine(8)(t) * (t >= 12 && t < 13 ? 3 : 1) + 9.8 }, { rate: 200, seconds: 20 }),
};

describe('levels', () => {
  it('of a sine are its closed forms', async () => {
    const files = { 'a.csv': recordingOf({ z: sine(5, 1, 9.8) }, { seconds: 10, rate: 400 }) };
    const { rows } = await valueOf('levels', `${load}levels r`, files);
    const [row] = rows;
    near(row.rms, Math.SQRT1_2, 1e-6);
    near(row.totalRms, Math.hypot(Math.SQRT1_2, 9.8), 1e-6);
    near(row.peakToPeak ?? NaN, 2, 1e-6);
    near(row.crestFactor!, Math.SQRT2, 1e-6);
    near(row.kurtosis!, 1.5, 1e-6);
    assert.ok(Math.abs(row.skewness!) < 1e-6);
    // ISO 2631-1:1997, 6.3.2: (3/8 x 10 s)^(1/4).
    near(row.vdv!, 1.3916, 1e-4);
    // arcsine distribution: |x| stays below sin(0.99 pi/2) 99 % of the time.
    near(row.percentile99, Math.sin((0.99 * Math.PI) / 2), 1e-3);
    near(row.mtvv!, Math.SQRT1_2, 1e-6);
    near(row.duration, 10, 1e-9);
  });

  it('tell the loudest second and when it ended, from the start of the stretch in use', async () => {
    const whole = (await valueOf('levels', `${load}levels r`, burst)).rows[0];
    near(whole.mtvv!, 3 * Math.SQRT1_2, 1e-6);
    near(whole.mtvvAt!, 13 - 1 / 200, 1e-9);
    const part = (await valueOf('levels', `${load}levels (trim r 5..18 s)`, burst)).rows[0];
    near(part.mtvvAt!, 8 - 1 / 200, 1e-9);
  });

  it('have no loudest second where there is no second', async () => {
    const { rows } = await valueOf('levels', `${load}levels (trim r 1..1.5 s)`, burst);
    assert.equal(rows[0].mtvv, undefined);
    const { error } = await resultOf(`${load}L = levels (trim r 1..1.5 s)\nL.mtvv`, burst);
    assert.equal(error?.code, 'field.absent');
  });

  it('are of all samples, also of those between losses that hold no segment of a spectrum, which says what it leaves out', async () => {
    // 20 s at 100 Hz, samples lost after the 8th second and 0.5 s later; what stands between holds the peak.
    const times = Array.from({ length: 2000 }, (_, i) => 0.01 * (i + (i < 800 ? 0 : i < 850 ? 3 : 6)));
    const files = { 'a.csv': recordingOf({ z: (t, i) => sine(8)(t) + (i === 820 ? 7 : 0) }, { times }) };
    const { rows } = await valueOf('levels', `${load}levels r`, files);
    assert.ok(rows[0].peak > 6, `a peak of ${rows[0].peak}`);
    near(rows[0].duration, 20, 1e-9);
    for (const [verb, length] of [
      ['spectrum r using window hann 1 s', 'a segment of 1 s'],
      ['spectrogram r using window hann 1 s', 'a segment of 1 s'],
      ['running r over 1 s', 'a span of 1 s'],
    ] as const) {
      const { warnings } = await resultOf(load + verb, files);
      const told = warnings.find(({ code }) => code === 'window.short-stretches')?.message;
      const sentence = `1 unbroken stretch of a, with 50 of its 2000 samples, is shorter than ${length} and left out here; \`levels\` take all samples.`;
      assert.equal(told, sentence, verb);
    }
    const { warnings } = await resultOf(`${load}spectrum r using window hann 0.4 s`, files);
    assert.ok(!warnings.some(({ code }) => code === 'window.short-stretches'));
  });

  it('say once of all runs what their MTVV is without, and nothing of runs without a whole second', async () => {
    const lost = (between: number): readonly number[] =>
      Array.from({ length: 2000 }, (_, i) => 0.01 * (i + (i < 800 ? 0 : i < 800 + between ? 3 : 6)));
    const of = (between: number): string => recordingOf({ z: sine(8) }, { times: lost(between) });
    const files = { 'a1.csv': of(50), 'a2.csv': of(70), 'a3.csv': of(150) };
    const { warnings } = await resultOf('levels (load "a*.csv" unit g)', files);
    const told = warnings.filter(({ code }) => code === 'levels.mtvv-short').map(({ message }) => message);
    assert.deepEqual(told, [
      'The MTVV of a1 is without 1 unbroken stretch of less than its span of 1 s, with 50 of 2000 samples; all other levels take all samples. Much the same goes for a2.',
    ]);
    const short = { 'a.csv': recordingOf({ z: sine(8) }, { rate: 100, seconds: 0.9 }) };
    const { value, warnings: none } = await resultOf('levels (load "a.csv" unit g)', short);
    assert.ok(value?.kind === 'levels' && value.rows[0].mtvv === undefined);
    assert.ok(!none.some(({ code }) => code === 'levels.mtvv-short'));
  });

  it('give every figure as a field with its unit', async () => {
    for (const [field, unit] of [
      ['mtvv', 'm/s^2'],
      ['mtvv_at', 's'],
      ['vdv', 'm/s^1.75'],
      ['p99', 'm/s^2'],
      ['p99_9', 'm/s^2'],
      ['skewness', ''],
    ]) {
      const { value, error } = await resultOf(`${load}L = levels r\nL.${field}`, burst);
      assert.equal(error, undefined, field);
      assert.ok(value?.kind === 'quantity');
      assert.equal(value.quantity.unit.symbol, unit);
    }
  });
});

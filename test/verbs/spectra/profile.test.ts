import { strict as assert } from 'node:assert';
import { tabulate } from '../../../src/values/tabulate.ts';
import { toJson } from '../../../src/values/json.ts';
import { errorOf, near, noise, recordingOf, resultOf, valueOf, warningsOf } from '../notebook.ts';

const gauss = noise(21);
/** White, 0.1 g r.m.s. at 200 Hz: 1e-4 g²/Hz. */
const files = { 'a.csv': recordingOf({ z: () => 0.1 * gauss() }, { seconds: 100 }) };
const load = 'r = load "a.csv" unit g\nS = spectrum r\n';

describe('profile', () => {
  it('tells the slope from each breakpoint to the next in dB an octave', async () => {
    const value = await valueOf('profile', 'profile 20 Hz 0.01 g^2/Hz, 80 Hz 0.04 g^2/Hz, 320 Hz 0.01 g^2/Hz', {});
    const { points } = toJson(value) as { points: { slope_db_per_octave: number | null }[] };
    near(points[0].slope_db_per_octave!, 10 * Math.log10(2), 1e-12);
    near(points[1].slope_db_per_octave!, -10 * Math.log10(2), 1e-12);
    assert.equal(points[2].slope_db_per_octave, null);
  });

  it('takes slopes in dB an octave in place of densities, up from a density and down to the first breakpoint', async () => {
    const text =
      'profile 20 Hz 3 dB/octave, 80 Hz 0.04 g^2/Hz, 350 Hz 0 dB/oct, 700 Hz -3 dB/octave, 2000 Hz -3 dB/octave';
    const value = await valueOf('profile', text, {});
    const densities = [0.04 / 10 ** 0.6, 0.04, 0.04, 0.04 / 10 ** 0.3, 0.04 / 10 ** (0.3 * Math.log2(2000 / 350))];
    value.points.forEach(({ density }, k) => near(density, densities[k], 1e-12));
    // By hand: 3 dB an octave is the power 0.99658 of the frequency; 1.5021 + 10.8 + 24.4745 g².
    near(value.rms, 6.064, 1e-4);
    const again = await valueOf('profile', 'profile 10 Hz -6 dB/octave, 20 Hz 6 dB/octave, 40 Hz 1 m^2/s^4/Hz', {});
    near(again.points[1].density, 10 ** -0.6, 1e-12);
    near(again.points[0].density, 1, 1e-12);
    const slopes = (toJson(again) as { points: { slope_db_per_octave: number | null }[] }).points;
    near(slopes[0].slope_db_per_octave!, -6, 1e-9);
    near(slopes[1].slope_db_per_octave!, 6, 1e-9);
    assert.equal((await errorOf('profile 10 Hz 3 dB/octave, 20 Hz 3 dB/octave')).code, 'profile.slopes');
    assert.equal((await errorOf('profile 10 Hz 3 dB, 20 Hz 0.1 g^2/Hz')).code, 'profile.unit');
    assert.equal((await errorOf('3 dB/octave in dB')).code, 'convert.dimension');
  });

  it('of NAVMAT P-9492 is 6.06 g r.m.s., as the handbook has it', async () => {
    const text = 'profile 20 Hz 0.01 g^2/Hz, 80 Hz 0.04 g^2/Hz, 350 Hz 0.04 g^2/Hz, 2000 Hz 0.007 g^2/Hz';
    const { rms, rmsUnit, points } = await valueOf('profile', text, {});
    near(rms, 6.058, 1e-3);
    assert.equal(rmsUnit.symbol, 'g');
    assert.equal(points.length, 4);
  });

  it('takes densities in any unit of one kind, and frequencies in kHz', async () => {
    const text = 'profile 20 Hz 0.02 g^2/Hz, 0.5 kHz 1.923407683 m^2/s^4/Hz';
    const { rms, unit, points } = await valueOf('profile', text, {});
    near(rms, Math.sqrt(480 * 0.02), 1e-6);
    assert.equal(unit.symbol, 'g^2/Hz');
    near(points[1].frequency, 500, 1e-12);
    near(points[1].density, 0.02, 1e-6);
    const metric = await valueOf('profile', 'profile 20 Hz 1 m^2/s^4/Hz, 120 Hz 1 m^2/s^4/Hz', {});
    near(metric.rms, 10, 1e-9);
    assert.equal(metric.rmsUnit.symbol, 'm/s^2');
  });

  it('holds a spectrum against it: r.m.s., difference, and the bins farthest off', async () => {
    const text = `${load}P = profile 10 Hz 1e-4 g^2/Hz, 60 Hz 1e-4 g^2/Hz\nprofile P against S`;
    const { against, rms } = await valueOf('profile', text, files);
    const [one] = against!;
    near(rms, Math.sqrt(50e-4), 1e-9);
    near(one.rms, rms, 0.03);
    near(one.decibels, 20 * Math.log10(one.rms / rms), 1e-9);
    assert.ok(one.highest.decibels > 0.3 && one.highest.decibels < 3);
    assert.ok(one.lowest.decibels < -0.3 && one.lowest.decibels > -4);
    assert.ok(one.highest.frequency >= 10 && one.highest.frequency <= 60);
    assert.ok(one.outside < 0.05);
    const half = await valueOf('profile', `${load}profile 10 Hz 4e-4 g^2/Hz, 60 Hz 4e-4 g^2/Hz against S`, files);
    near(half.against![0].decibels, 20 * Math.log10(one.rms / rms / 2), 1e-9);
    assert.ok(half.against![0].outside > 0.95);
  });

  it('compares g with m/s^2 rightly', async () => {
    const metric = `profile 10 Hz ${1e-4 * 9.80665 ** 2} m^2/s^4/Hz, 60 Hz ${1e-4 * 9.80665 ** 2} m^2/s^4/Hz against S`;
    const a = (await valueOf('profile', load + metric, files)).against![0];
    const b = (await valueOf('profile', `${load}profile 10 Hz 1e-4 g^2/Hz, 60 Hz 1e-4 g^2/Hz against S`, files))
      .against![0];
    near(a.decibels, b.decibels, 1e-6);
    near(a.rms, b.rms * 9.80665, 1e-6);
  });

  it('refuses what is no profile, and says what is wrong', async () => {
    const wrong: [string, RegExp][] = [
      ['profile 20 Hz 0.01 g^2/Hz', /at least two breakpoints/],
      ['profile 20 Hz 0.01 g^2/Hz, 80 Hz', /at 80 Hz has no density/],
      ['profile 0.01 g^2/Hz 20 Hz, 80 Hz 0.04 g^2/Hz', /a frequency is wanted where 0\.01 g\^2\/Hz stands/],
      ['profile 80 Hz 0.01 g^2/Hz, 20 Hz 0.04 g^2/Hz', /frequencies of a profile rise, and 20 Hz follows 80 Hz/],
      ['profile 20 Hz 0 g^2/Hz, 80 Hz 0.04 g^2/Hz', /Breakpoint 1 .* above 0/],
      ['profile 20 Hz 0.01 g, 80 Hz 0.04 g', /squared per Hz/],
      ['profile 20 Hz 0.01 g^2/Hz, 80 Hz 0.04 N^2/Hz', /all of one kind/],
    ];
    for (const [text, expected] of wrong) assert.match((await errorOf(text)).message, expected);
  });

  it('refuses spectra that it can’t be held against', async () => {
    assert.match(
      (await errorOf(`${load}profile 10 Hz 1e-4 g^2/Hz, 2000 Hz 1e-4 g^2/Hz against S`, files)).message,
      /reaches to 2000 Hz, past half the rate of a, which is 100 Hz/,
    );
    assert.match(
      (await errorOf(`${load}profile 10 Hz 1 N^2/Hz, 60 Hz 1 N^2/Hz against S`, files)).message,
      /in N\^2\/Hz and the spectrum of a, z, in g\^2\/Hz/,
    );
    assert.match(
      (await errorOf(`${load}profile 10.1 Hz 1 g^2/Hz, 10.2 Hz 1 g^2/Hz against S`, files)).message,
      /No bin/,
    );
  });

  it('has its r.m.s. as a field, and stands in table, chart and JSON', async () => {
    const P = 'P = profile 10 Hz 1e-4 g^2/Hz, 60 Hz 1e-4 g^2/Hz\n';
    const { value } = await resultOf(`${P}P.rms`);
    assert.ok(value?.kind === 'quantity');
    near(value.quantity.value, Math.sqrt(50e-4), 1e-9);
    const made = await valueOf('profile', `${load}${P}profile P against S`, files);
    assert.equal(tabulate(made)?.rows.length, 1);
    const json = toJson(made) as { points: unknown[]; against: { db: number }[]; rms_unit: string };
    assert.deepEqual([json.points.length, json.against.length, json.rms_unit], [2, 1, 'g']);
    assert.deepEqual(await warningsOf(`${load}${P}plot S, P`, files), []);
  });
});

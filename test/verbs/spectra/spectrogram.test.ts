import { strict as assert } from 'node:assert';
import { tabulate } from '../../../src/values/tabulate.ts';
import { toJson } from '../../../src/values/json.ts';
import { errorOf, near, noise, recordingOf, sine, valueOf } from '../notebook.ts';

const load = 'r = load "a.csv" unit g\n';
/** 10 Hz, three times as strong from 12 s to 14 s; a gap of 3 s after 15 s. */
const at = Array.from({ length: 5000 }, (_, i) => i / 200 + (i < 3000 ? 0 : 3));
const burst = {
  'a.csv': recordingOf({ z: (t) => 1 + sine(10)(t) * (t >= 12 && t < 14 ? 3 : 1) }, { times: at }),
};

describe('spectrogram', () => {
  it('averages to the spectrum of the same window', async () => {
    const gauss = noise(2);
    const files = { 'a.csv': recordingOf({ z: () => gauss() }, { seconds: 20 }) };
    const [picture] = (await valueOf('spectrogram', `${load}spectrogram r using window hann 1 s`, files)).entries;
    const [whole] = (await valueOf('spectrum', `${load}spectrum r using window hann 1 s`, files)).entries;
    const mean = new Float64Array(picture.bins);
    picture.density.forEach((value, i) => (mean[i % picture.bins] += value / picture.times.length));
    assert.equal(picture.bins, whole.density.length);
    mean.forEach((value, k) => near(value, whole.density[k], 1e-9));
    assert.equal(picture.unit.symbol, 'g^2/Hz');
  });

  it('places each column at the middle of its segment, on the recording’s axis, gaps and all', async () => {
    const text = `${load}trim r 10..27 s | spectrogram using window hann 1 s overlap 0 %`;
    const [{ times, density, bins }] = (await valueOf('spectrogram', text, burst)).entries;
    const expected = [10.5, 11.5, 12.5, 13.5, 14.5, 18.5, 19.5, 20.5, 21.5, 22.5, 23.5, 24.5, 25.5, 26.5];
    assert.equal(times.length, expected.length);
    times.forEach((t, i) => near(t, expected[i], 1e-9));
    near(density[2 * bins + 10] / density[10], 9, 0.02);
  });

  it('averages columns rather than hold more than a screen shows', async () => {
    const files = { 'a.csv': recordingOf({ z: sine(10) }, { seconds: 200, rate: 100 }) };
    const text = `${load}spectrogram r using window hann 0.1 s`;
    const [{ times, perColumn }] = (await valueOf('spectrogram', text, files)).entries;
    assert.ok(times.length <= 1000 && perColumn === 4);
  });

  it('refuses a window longer than every stretch', async () => {
    assert.equal((await errorOf(`${load}spectrogram r using window hann 20 s`, burst)).code, 'window.long');
  });

  it('stands in table and JSON', async () => {
    const value = await valueOf('spectrogram', `${load}trim r 0..4 s | spectrogram`, burst);
    const { runs } = toJson(value) as { runs: { time_s: number[]; density: number[][]; spacing_hz: number }[] };
    assert.deepEqual([runs[0].time_s.length, runs[0].density.length, runs[0].density[0].length], [3, 3, 201]);
    assert.equal(runs[0].spacing_hz, 0.5);
    assert.equal(tabulate(value)?.rows.length, 3 * 201);
    assert.deepEqual(tabulate(value)?.rows[202].slice(2, 4), [2, 0.5]);
  });
});

import { strict as assert } from 'node:assert';
import { tabulate } from '../../src/values/tabulate.ts';
import { toJson } from '../../src/values/json.ts';
import { errorOf, near, noise, recordingOf, resultOf, sine, valueOf, warningsOf } from './notebook.ts';

const load = 'r = load "a.csv" unit g\n';
/** 10 Hz, three times as strong from 12 s to 14 s; a gap of 3 s after 15 s. */
const at = Array.from({ length: 5000 }, (_, i) => i / 200 + (i < 3000 ? 0 : 3));
const burst = {
  'a.csv': recordingOf({ z: (t) => 1 + sine(10)(t) * (t >= 12 && t < 14 ? 3 : 1) }, { times: at }),
};

describe('running', () => {
  it('follows the level, with gravity taken out, and marks its maximum on the recording’s axis', async () => {
    const { entries, over } = await valueOf('running', `${load}running r over 1 s`, burst);
    const [entry] = entries;
    assert.equal(over, 1);
    near(entry.rms[entry.times.indexOf(5)], Math.SQRT1_2, 2e-3);
    near(entry.largest, 3 * Math.SQRT1_2, 2e-3);
    assert.ok(entry.largestAt >= 12.99 && entry.largestAt < 14.01, String(entry.largestAt));
    near(entry.times[0], 1 - 1 / 200, 1e-9);
  });

  it('keeps the recording’s times after a trim, and has no span across a gap', async () => {
    const part = (await valueOf('running', `${load}trim r 10..27 s | running over 1 s`, burst)).entries[0];
    near(part.times[0], 11 - 1 / 200, 1e-9);
    const steps = part.times.map((t, i) => (i === 0 ? 0 : t - part.times[i - 1]));
    const jumps = steps.filter((step) => step > 0.0051);
    assert.equal(jumps.length, 1);
    near(jumps[0], 4, 1e-6);
  });

  it('takes 1 s where nothing is said, and any other span', async () => {
    assert.equal((await valueOf('running', `${load}running r`, burst)).over, 1);
    const short = (await valueOf('running', `${load}running r over 100 ms`, burst)).entries[0];
    near(short.largest, 3 * Math.SQRT1_2, 5e-3);
  });

  it('refuses a span that does not fit, and warns of one of few samples', async () => {
    const { code, message } = await errorOf(`${load}running r over 20 s`, burst);
    assert.equal(code, 'running.long');
    assert.match(message, /stretch of a is 15 s/);
    assert.equal((await errorOf(`${load}running r over 1 us`, burst)).code, 'running.short');
    assert.deepEqual(await warningsOf(`${load}running r over 20 ms`, burst), ['running.few']);
  });

  it('stands in table and JSON span after span, so that their mean square is the run’s', async () => {
    const value = await valueOf('running', `${load}trim r 0..12 s | running over 1 s`, burst);
    const { rows } = toJson(value) as { rows: { time_s: number[]; rms: number[]; largest: number }[] };
    assert.deepEqual(
      rows[0].time_s.map((t) => Math.round(t)),
      [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12],
    );
    near(Math.sqrt(rows[0].rms.reduce((sum, v) => sum + v * v, 0) / 12), Math.SQRT1_2, 1e-4);
    assert.equal(tabulate(value)?.rows.length, 12);
    const field = await resultOf(`${load}R = running r\nR.largest`, burst);
    assert.ok(field.value?.kind === 'quantity' && field.value.quantity.unit.symbol === 'g');
  });
});

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

describe('transfer', () => {
  /** z follows x at half the height 10 ms later, with some noise of its own; y is unrelated. */
  const gauss = noise(11);
  const drive = Array.from({ length: 12_002 }, gauss);
  const files = {
    'a.csv': recordingOf(
      { x: (_, i) => drive[i + 2], y: () => gauss(), z: (_, i) => 0.5 * drive[i] + 0.05 * gauss() },
      { rate: 200, seconds: 60 },
    ),
  };

  it('gives magnitude, delay as falling phase, and coherence', async () => {
    const { entries, leastCoherence } = await valueOf(
      'transfer',
      `${load}transfer r from x to z using window hann 1 s`,
      files,
    );
    const [entry] = entries;
    assert.deepEqual([entry.from, entry.to, entry.unit.symbol, leastCoherence], ['x', 'z', '', 0.5]);
    for (const k of [10, 25, 40]) {
      near(entry.magnitude[k], 0.5, 0.05);
      assert.ok(entry.magnitudeH2[k] >= entry.magnitude[k]);
      const lag = -360 * k * 0.01;
      const off = ((((entry.phase[k] - lag) % 360) + 540) % 360) - 180;
      assert.ok(Math.abs(off) < 3, `${off} degrees off at ${k} Hz`);
      assert.ok(entry.coherence[k] > 0.95);
      near(entry.randomError[k], Math.sqrt((1 - entry.coherence[k]) / (entry.coherence[k] * 2 * entry.averages)), 1e-9);
    }
  });

  it('of unrelated channels says that one does not follow from the other', async () => {
    assert.deepEqual(await warningsOf(`${load}transfer r from x to y using window hann 0.5 s`, files), [
      'transfer.incoherent',
    ]);
  });

  it('warns of so few averages that anything seems coherent', async () => {
    assert.ok(
      (await warningsOf(`${load}transfer r from x to y using window hann 20 s`, files)).includes('transfer.few'),
    );
  });

  it('carries the units of unlike channels', async () => {
    const mixed = 'r = load "a.csv" channel force, z\ntransfer r from force to z';
    const force = {
      'a.csv': `t (s),force (N),z (g)\n${files['a.csv']
        .split('\n')
        .slice(1)
        .map((row) =>
          row
            .split(',')
            .filter((_, i) => i !== 2)
            .join(','),
        )
        .join('\n')}`,
    };
    assert.equal((await valueOf('transfer', mixed, force)).entries[0].unit.symbol, 'g/N');
  });

  it('refuses a channel that is not there, one to itself, and a single segment', async () => {
    const { code, message } = await errorOf(`${load}transfer r from axle to z`, files);
    assert.equal(code, 'channel.unknown');
    assert.match(message, /no channel axle: it has x, y, z/);
    assert.match((await errorOf(`${load}transfer r from x to post`, files)).message, /no channel post/);
    assert.equal((await errorOf(`${load}transfer r from x to x`, files)).code, 'transfer.same');
    assert.match(
      (await errorOf(`${load}transfer r from x to z using window hann 50 s`, files)).message,
      /Only one segment/,
    );
    assert.equal((await errorOf(`${load}transfer r from x`, files)).code, 'operand.missing');
  });

  it('stands in table and JSON, without a number that is not finite', async () => {
    const value = await valueOf('transfer', `${load}transfer r from x to z`, files);
    const { runs, least_coherence } = toJson(value) as { runs: Record<string, number[]>[]; least_coherence: number };
    assert.equal(least_coherence, 0.5);
    assert.deepEqual(Object.keys(runs[0]), [
      'run',
      'from',
      'to',
      'spacing_hz',
      'averages',
      'h1',
      'h2',
      'phase_deg',
      'coherence',
      'random_error',
    ]);
    assert.equal(runs[0].h1.length, 201);
    const cells = tabulate(value)!.rows.flat();
    assert.ok(cells.every((one) => typeof one !== 'number' || Number.isFinite(one)));
  });
});

import { strict as assert } from 'node:assert';
import { tabulate } from '../../../src/values/tabulate.ts';
import { toJson } from '../../../src/values/json.ts';
import { errorOf, near, noise, ownCodes, recordingOf, resultOf, sine, valueOf, warningsOf } from '../notebook.ts';

const load = 'r = load "a.csv" unit g\n';

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

  it('is taken between two sensors that take turns in one file, each row with its sensor’s name', async () => {
    const signal = Array.from({ length: 12_000 }, noise(8));
    const rows = signal.flatMap((value, i) => {
      const at = (i / 200).toFixed(3);
      const before = signal[Math.max(0, i - 2)];
      return [`${at},base,${value.toFixed(6)},0.1`, `${at},top,${(0.5 * before).toFixed(6)},0.1`];
    });
    const files = { 'two.csv': `time (s),sensor,x (g),z (g)\n${rows.join('\n')}\n` };
    const text = 'r = load "two.csv" sensor "base", "top"\ntransfer r from base_x to top_x using window hann 2 s align';
    const [{ magnitude, coherence, aligned }] = (await valueOf('transfer', text, files)).entries;
    near(aligned, 0.01, 1e-9);
    for (let k = 1; k < magnitude.length - 1; k++) {
      near(magnitude[k], 0.5, 1e-3);
      assert.ok(coherence[k] > 0.999);
    }
    assert.match((await errorOf('load "two.csv"', files)).message, /sensor "base", "top"/);
  });

  it('of a copy that comes 0.5 s later reads low and says by how much it comes later, until it is aligned', async () => {
    const own = noise(21);
    const signal = Array.from({ length: 24_100 }, own);
    const late = {
      'a.csv': recordingOf({ x: (_, i) => signal[i + 100], z: (_, i) => signal[i] }, { rate: 200, seconds: 120 }),
    };
    const text = `${load}T = transfer r from x to z using window hann 2 s`;
    const mean = (of: Float64Array): number => of.reduce((sum, one) => sum + one, 0) / of.length;
    const { value, warnings } = await resultOf(text, late);
    assert.ok(value?.kind === 'transfer');
    near(mean(value.entries[0].magnitude), 0.65, 0.03);
    near(mean(value.entries[0].coherence), 0.47, 0.1);
    near(value.entries[0].delay!, 0.5, 1e-3);
    assert.deepEqual(ownCodes(warnings), ['transfer.delay']);
    assert.match(warnings[0].message, /z comes 0\.5 s later than x/);
    const [whole] = (await valueOf('transfer', `${text} align`, late)).entries;
    for (const h1 of whole.magnitude) near(h1, 1, 1e-6);
    near(whole.aligned, 0.5, 1e-9);
    assert.deepEqual(await warningsOf(`${text} align`, late), []);
    const back = await valueOf('transfer', `${load}transfer r from z to x using window hann 2 s align`, late);
    near(back.entries[0].aligned, -0.5, 1e-9);
    near(back.entries[0].magnitude[30], 1, 1e-6);
    const { value: delay } = await resultOf(`${text}\nT.delay in ms`, late);
    assert.ok(delay?.kind === 'quantity');
    near(delay.quantity.value, 500, 1e-3);
  });

  it('tells no delay of unrelated channels and of pure tones, and nothing is aligned by one', async () => {
    const tones = { 'a.csv': recordingOf({ x: sine(20), z: sine(20, 1, 0.5) }, { rate: 200, seconds: 60 }) };
    for (const from of [files, tones]) {
      const text = `${load}transfer r from x to ${from === files ? 'y' : 'z'} using window hann 1 s align`;
      const [entry] = (await valueOf('transfer', text, from)).entries;
      assert.deepEqual([entry.delay, entry.aligned], [undefined, 0]);
      assert.ok((await warningsOf(text, from)).includes('transfer.unaligned'));
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
    assert.match(message, /no channel axle: it has x, y and z/);
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
      'delay_s',
      'aligned_s',
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

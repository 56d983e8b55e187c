import { strict as assert } from 'node:assert';
import { signalsOf } from '../../../src/values/run.ts';
import { overlayOf } from '../../../src/charts/plots/overlay.ts';
import { bareOverlay } from '../../../src/charts/plots/overlayOptions.ts';
import { errorOf, near, noise, recordingOf, resultOf, rmsOf, sine, valueOf, warningsOf } from '../notebook.ts';

const load = 'r = load "a.csv" unit g\n';
const twenty = { 'a.csv': recordingOf({ z: sine(20, 0.3 * Math.SQRT2, 1) }, { rate: 400 }) };

describe('integrate', () => {
  it('0.30 g r.m.s. at 20 Hz is 23.41 mm/s and 0.1863 mm', async () => {
    const [velocity] = signalsOf((await valueOf('runs', `${load}integrate r to velocity`, twenty)).runs[0]);
    near(rmsOf(velocity.samples), 0.02341, 5e-4);
    assert.equal(velocity.unit.symbol, 'm/s');
    const displacement = (await valueOf('runs', `${load}integrate r to displacement above 2 Hz`, twenty)).runs[0];
    near(rmsOf(signalsOf(displacement)[0].samples), 0.1863, 5e-4);
    assert.equal(displacement.channels[0].unit.symbol, 'mm');
    assert.deepEqual(displacement.history, ['integrated to displacement above 2 Hz, without 1.2 s at each end']);
  });

  it('a velocity once integrated is the displacement', async () => {
    const twice = await valueOf('runs', `${load}integrate r to velocity | integrate to displacement`, twenty);
    const once = await valueOf('runs', `${load}integrate r to displacement`, twenty);
    const [a, b] = [twice, once].map(({ runs }) => signalsOf(runs[0])[0].samples);
    assert.deepEqual([a.length, twice.runs[0].start], [b.length, once.runs[0].start]);
    const size = rmsOf(b);
    a.forEach((value, i) => assert.ok(Math.abs(value - b[i]) < 1e-3 * size));
  });

  it('of a cosine that does not fit the stretch is within 1 %, whatever its frequency above the cut', async () => {
    for (const [frequency, seconds] of [
      [1.03, 17.3],
      [5.37, 11.9],
      [33.3, 9.1],
    ]) {
      const cosine = (t: number): number => Math.cos(2 * Math.PI * frequency * t);
      const files = { 'a.csv': recordingOf({ z: cosine }, { rate: 400, seconds }) };
      for (const [goal, times, unit] of [
        ['velocity', 1, 1],
        ['displacement', 2, 1000],
      ] as const) {
        const [run] = (await valueOf('runs', `${load}integrate r to ${goal}`, files)).runs;
        const omega = 2 * Math.PI * frequency;
        const amplitude = (unit * 9.80665) / omega ** times;
        signalsOf(run)[0].samples.forEach((value, i) => {
          const turn = omega * (run.start + i / 400);
          const truth = times === 1 ? Math.sin(turn) : -Math.cos(turn);
          assert.ok(Math.abs(value / amplitude - truth) < 0.01, `${value / amplitude}, not ${truth}, at ${i}`);
        });
      }
    }
  });

  it('bounds spectra, bands and charts by its cut', async () => {
    const text = `${load}v = integrate r to velocity above 3 Hz\nS = spectrum v\n`;
    assert.equal((await errorOf(`${text}band S 1..10 Hz`, twenty)).code, 'band.below-cut');
    assert.equal((await errorOf(`${text}band S third-octave 2.5..10 Hz`, twenty)).code, 'band.below-cut');
    assert.deepEqual((await valueOf('bands', `${text}band S 3..10 Hz`, twenty)).bands, [{ from: 3, to: 10 }]);
    const value = await valueOf('spectrum', `${text}S`, twenty);
    const drawn = (frequency: 'linear' | 'log', over?: { from: number; to: number }): object | undefined =>
      overlayOf([{ name: 'S', value }], { ...bareOverlay, frequency, ...(over === undefined ? {} : { over }) })?.x;
    assert.deepEqual(drawn('linear'), { from: 3, to: 200 });
    assert.deepEqual(drawn('log', { from: 1, to: 50 }), { from: 3, to: 50 });
  });

  it('bounds spectra, bands, charts and comparisons by a high-pass before or after it', async () => {
    const drawn = async (text: string): Promise<object | undefined> => {
      const value = await valueOf('spectrum', `${load}${text}`, twenty);
      return overlayOf([{ name: 'S', value }], { ...bareOverlay, frequency: 'linear' })?.x;
    };
    const cut = { from: 5, to: 200 };
    for (const text of [
      'highpass r 5 Hz | integrate to velocity | spectrum',
      'integrate r to velocity | highpass 5 Hz | spectrum',
      'integrate r to velocity | bandpass 5..150 Hz | spectrum',
      'highpass r 5 Hz | spectrum as velocity',
      'x = highpass r 5 Hz | channel z\nintegrate x to velocity | detrend | spectrum',
    ]) {
      assert.deepEqual(await drawn(text), cut, text);
      const { code, message } = await errorOf(`${load}${text} | band 2..20 Hz`, twenty);
      assert.equal(code, 'band.below-cut', text);
      assert.match(message, /under which a high-pass left nothing of a: /);
      assert.equal((await errorOf(`${load}${text} | band third-octave 4..20 Hz`, twenty)).code, 'band.below-cut');
    }
    const two = { ...twenty, 'b.csv': recordingOf({ z: sine(20, 0.2, 1) }, { rate: 400 }) };
    const velocity = 'load "*.csv" unit g | highpass 5 Hz | integrate to velocity';
    const compared = await errorOf(`v = ${velocity}\ncompare v[1] with v[2] over 2..20 Hz`, two);
    assert.equal(compared.code, 'band.below-cut');
    // A cut of the integration above that of the high-pass is told as its own.
    const own = await errorOf(
      `${load}highpass r 2 Hz | integrate to velocity above 5 Hz | spectrum | band 3..20 Hz`,
      twenty,
    );
    assert.match(own.message, /begins below 5 Hz, under which a was not integrated/);
  });

  it('lets a high-passed acceleration and an envelope begin where they are', async () => {
    const whole = async (text: string): Promise<void> => {
      const { bands } = await valueOf('bands', `${load}${text} | spectrum | band 2..20 Hz`, twenty);
      assert.deepEqual(bands, [{ from: 2, to: 20 }], text);
    };
    await whole('highpass r 5 Hz');
    await whole('integrate r to velocity | envelope 40..60 Hz');
  });

  it('leads the phase as calculus says: a sine of acceleration is a minus cosine of velocity', async () => {
    const [run] = (await valueOf('runs', `${load}integrate r to velocity`, twenty)).runs;
    const [{ samples }] = signalsOf(run);
    near(run.start, 1.2, 1e-9);
    assert.equal(samples.length, 8000 - 2 * 480);
    const amplitude = (0.3 * Math.SQRT2 * 9.80665) / (2 * Math.PI * 20);
    for (let i = 0; i < samples.length; i += 11)
      assert.ok(Math.abs(samples[i] + amplitude * Math.cos((2 * Math.PI * 20 * (i + 480)) / 400)) < 1e-4 * amplitude);
  });

  it('warns where the low cut decides the figure', async () => {
    const gauss = noise(5);
    const rough = { 'a.csv': recordingOf({ z: () => 1 + 0.1 * gauss() }, { rate: 200 }) };
    assert.deepEqual(await warningsOf(`${load}integrate r to displacement`, rough), ['integrate.low-cut']);
    assert.deepEqual(await warningsOf(`${load}integrate r to displacement`, twenty), []);
  });

  it('warns of a stretch with few periods of the low cut', async () => {
    assert.deepEqual(await warningsOf(`${load}trim r 0..4 s | integrate to velocity`, twenty), ['integrate.short']);
    const { code, message } = await errorOf(`${load}trim r 0..2 s | integrate to velocity`, twenty);
    assert.equal(code, 'integrate.edges');
    assert.match(message, /leaves out 1\.2 s at each end, and the longest stretch of a lasts only 2 s/);
  });

  it('says what it leaves out of stretches between losses, of which their ends are all', async () => {
    const times = Array.from({ length: 8000 }, (_, i) => (i + (i < 4000 ? 0 : i < 4400 ? 4 : 8)) / 400);
    const files = { 'a.csv': recordingOf({ z: sine(20) }, { times }) };
    const { value, warnings } = await resultOf(`${load}integrate r to velocity above 2 Hz`, files);
    assert.ok(value?.kind === 'runs' && value.runs[0].stretches.length === 2);
    const told = warnings.find(({ code }) => code === 'stretch.left-out')?.message ?? '';
    assert.match(
      told,
      /^Integrate leaves out 1 unbroken stretch of a, with 400 of its 8000 samples: it is shorter than 2\.5 s/,
    );
    assert.ok(!warnings.some(({ code }) => code === 'integrate.short'));
  });

  it('refuses a low cut of nothing or past half the rate, and what can’t be integrated', async () => {
    assert.match((await errorOf(`${load}integrate r to velocity above 0 Hz`, twenty)).message, /above 0 Hz/);
    assert.match((await errorOf(`${load}integrate r to velocity above 200 Hz`, twenty)).message, /half the rate/);
    const twice = await errorOf(`${load}integrate r to velocity | integrate to velocity`, twenty);
    assert.equal(twice.code, 'integrate.unit');
    assert.match(twice.message, /in m\/s: velocity comes from an acceleration/);
    assert.equal((await errorOf(`${load}integrate r`, twenty)).code, 'operand.missing');
    assert.equal((await resultOf(`${load}integrate r to jerk`, twenty)).error !== undefined, true);
  });
});

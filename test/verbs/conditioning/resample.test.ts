import { strict as assert } from 'node:assert';
import { signalsOf } from '../../../src/values/run.ts';
import {
  errorOf,
  near,
  recordingOf,
  resultOf,
  rmsOf,
  sine,
  uniform,
  valueOf,
  warningsOf,
  ownCodes,
} from '../notebook.ts';

const load = 'r = load "a.csv" unit g\n';
const even = { 'a.csv': recordingOf({ z: (t) => 1 + sine(10)(t) }) };

/** Times of 4000 readings, each early or late by chance, so that the steps scatter by so much of their mean, 5 ms. */
function jittered(share: number): number[] {
  const random = uniform(3);
  return Array.from({ length: 4000 }, (_, i) => 0.005 * (i + 1 + share * Math.sqrt(1.5) * (2 * random() - 1)));
}
/** The axis begins at the first reading. */
const begun = (share: number): number => jittered(share)[0];
const uneven = (share: number, of = sine(4)): Record<string, string> => ({
  'a.csv': recordingOf({ z: of }, { times: jittered(share) }),
});

describe('resample', () => {
  it('brings a run to the rate asked for, and keeps what both rates hold', async () => {
    for (const rate of [400, 300, 173.3, 80]) {
      const { runs } = await valueOf('runs', `${load}resample r ${rate} Hz`, even);
      const [run] = runs;
      near(run.rate, rate, 1.01e-6);
      const { samples } = signalsOf(run)[0];
      assert.equal(samples.length, Math.ceil(((4000 * run.rate) / 200) * (1 - 1e-12)));
      for (let i = Math.round(rate); i < samples.length - rate; i += 7)
        assert.ok(Math.abs(samples[i] - 1 - sine(10)(i / run.rate)) < 4e-3, `${rate} Hz, sample ${i}`);
    }
  });

  it('is flat to 0.4 of the lower rate and lets nothing fold down', async () => {
    const gain = async (frequency: number): Promise<number> => {
      const files = { 'a.csv': recordingOf({ z: sine(frequency) }) };
      const { runs } = await valueOf('runs', `${load}resample r 100 Hz`, files);
      const { samples } = signalsOf(runs[0])[0];
      return rmsOf(samples, 200, samples.length - 200) / Math.SQRT1_2;
    };
    near(await gain(40.3), 1, 0.005);
    near((await gain(48.3)) + (await gain(51.7)), 1, 0.01);
    assert.ok((await gain(61.3)) < 0.005);
    assert.ok((await gain(90.7)) < 0.005);
  });

  it('of uneven readings gives even ones whose frequency is right', async () => {
    const { runs } = await valueOf('runs', `${load}resample r 100 Hz`, uneven(0.3));
    const [run] = runs;
    assert.equal(run.times, undefined);
    const { samples } = signalsOf(run)[0];
    for (const { from, to, start } of run.stretches)
      for (let i = from + 20; i < to - 20; i++)
        assert.ok(Math.abs(samples[i] - sine(4)(begun(0.3) + start + (i - from) / run.rate)) < 0.01, `sample ${i}`);
  });

  it('warns that a higher rate adds nothing', async () => {
    assert.deepEqual(await warningsOf(`${load}resample r 400 Hz`, even), ['resample.up']);
    assert.deepEqual(await warningsOf(`${load}resample r 100 Hz`, even), []);
  });

  it('refuses a rate of nothing and one beyond reason', async () => {
    assert.match((await errorOf(`${load}resample r 0 Hz`, even)).message, /above 0 Hz/);
    const { code, message } = await errorOf(`${load}resample r 400 kHz`, even);
    assert.equal(code, 'resample.factor');
    assert.match(message, /check the unit/);
    assert.equal((await errorOf(`${load}resample r`, even)).code, 'operand.missing');
  });
});

describe('uneven sampling', () => {
  it('below 5 % is taken as even', async () => {
    const { value, warnings } = await resultOf(load, uneven(0.03));
    assert.ok(value?.kind === 'runs');
    assert.deepEqual(value.runs[0].history, []);
    assert.deepEqual(warnings, []);
  });

  it('from 5 to 25 % is brought to even steps with a warning, and a spectrum shows its line', async () => {
    const { value, warnings } = await resultOf(load, uneven(0.15));
    assert.ok(value?.kind === 'runs');
    const [run] = value.runs;
    assert.deepEqual(ownCodes(warnings), ['uneven']);
    assert.match(warnings[0].message, /vary by 1[45].* %/);
    assert.match(run.history[0], /cubic spline/);
    const { samples } = signalsOf(run)[0];
    for (const { from, to, start } of run.stretches)
      for (let i = from + 3; i < to - 3; i++)
        assert.ok(Math.abs(samples[i] - sine(4)(begun(0.15) + start + (i - from) / run.rate)) < 2e-3, `sample ${i}`);
  });

  it('beyond 25 % is refused by every verb that needs a rate, which names resample', async () => {
    const files = uneven(0.4);
    const steps = [
      'spectrum r',
      'levels r',
      'highpass r 2 Hz',
      'lowpass r 20 Hz',
      'bandpass r 2..20 Hz',
      'weight r wk',
      'integrate r to velocity',
      'detrend r linear',
      'running r over 1 s',
      'spectrogram r',
    ];
    for (const step of steps) {
      const { code, message } = await errorOf(load + step, files);
      assert.equal(code, 'rate.uneven', step);
      assert.match(message, /resample/);
    }
    assert.equal((await resultOf(`${load}resample r 100 Hz | spectrum`, files)).error, undefined);
  });

  it('warns at the resampling by hand how wide the widest step was', async () => {
    const codes = await warningsOf(`${load}resample r 100 Hz`, uneven(0.4));
    assert.ok(codes.includes('resample.uneven'));
  });

  it('is trimmed by the readings’ own times', async () => {
    const { runs } = await valueOf('runs', `${load}trim r 5..7 s`, uneven(0.4));
    const { times } = runs[0];
    assert.ok(times !== undefined && times.length > 300);
    assert.ok(times[0] >= 5 && times[0] < 5.02 && times.at(-1)! < 7 && times.at(-1)! > 6.98);
  });
});

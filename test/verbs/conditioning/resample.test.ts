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
    assert.equal(run.stamps, undefined);
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

  it('from 5 to 25 % is kept as logged, and brought to even steps by the verb that needs them, which says so', async () => {
    const { value, warnings } = await resultOf(load, uneven(0.15));
    assert.ok(value?.kind === 'runs');
    const [run] = value.runs;
    const { stamps, history } = run;
    assert.deepEqual(ownCodes(warnings), ['uneven']);
    assert.match(warnings[0].message, /vary by 1[45].* % .*as logged/);
    assert.deepEqual(history, []);
    assert.equal(stamps?.times.length, 4000);
    jittered(0.15).forEach((t, i) =>
      assert.ok(Math.abs(signalsOf(run)[0].samples[i] - sine(4)(t)) < 1e-5, `sample ${i}`),
    );
    const { value: slow, warnings: told } = await resultOf(`${load}lowpass r 90 Hz`, uneven(0.15));
    assert.ok(slow?.kind === 'runs');
    assert.match(told[0].message, /^Lowpass needs .* of a,.* vary by 1[45].* brought to 200[^ ]* Hz/);
    assert.deepEqual(ownCodes(told), ['rate.evened']);
    assert.match(slow.runs[0].history[0], /cubic spline/);
  });

  it('brought to even steps shows its line in a spectrum, and follows the signal', async () => {
    const { runs } = await valueOf('runs', `${load}resample r 200 Hz`, uneven(0.15));
    const [run] = runs;
    const { samples } = signalsOf(run)[0];
    for (const { from, to, start } of run.stretches)
      for (let i = from + 3; i < to - 3; i++)
        assert.ok(Math.abs(samples[i] - sine(4)(begun(0.15) + start + (i - from) / run.rate)) < 2e-3, `sample ${i}`);
  });

  it('is told once for a set, naming the other runs', async () => {
    const files = { ...uneven(0.15), 'b.csv': uneven(0.15)['a.csv'] };
    const { warnings } = await resultOf('spectrum (load "*.csv" unit g)', files);
    const told = warnings.filter(({ code }) => code === 'rate.evened');
    assert.equal(told.length, 1);
    assert.match(told[0].message, /Spectrum needs.*\ba\b.*same goes for b\.$/);
  });

  it('leaves every level that of the samples as logged', async () => {
    const count = 200_000;
    const random = uniform(5);
    const times = Array.from({ length: count }, (_, i) => 0.002 * (i + 1 + 0.17 * (2 * random() - 1)));
    const tone = sine(222);
    const logged = Float64Array.from(times, (t) => Number(tone(t).toFixed(9)));
    const mean = logged.reduce((sum, value) => sum + value, 0) / count;
    const { rows } = await valueOf('levels', `${load}levels r`, { 'a.csv': recordingOf({ z: tone }, { times }) });
    const [{ rms, peak, kurtosis, percentile999, duration }] = rows;
    near(rms, rmsOf(logged.map((value) => value - mean)), 1e-9);
    near(rms, Math.SQRT1_2, 1e-3);
    near(peak, 1, 1e-3);
    near(kurtosis!, 1.5, 2e-3);
    near(percentile999, 1, 1e-3);
    near(duration, 0.002 * count, 1e-4);
  });

  it('beyond 25 % is refused by every verb that needs a rate, which names itself and resample', async () => {
    const files = uneven(0.4);
    const steps = [
      'spectrum r',
      'highpass r 2 Hz',
      'lowpass r 20 Hz',
      'bandpass r 2..20 Hz',
      'weight r wk',
      'integrate r to velocity',
      'spectrogram r',
    ];
    for (const step of steps) {
      const { code, message } = await errorOf(load + step, files);
      assert.equal(code, 'rate.uneven', step);
      assert.ok(message.toLowerCase().startsWith(`${step.split(' ')[0]} needs`), message);
      assert.match(message, /resample/);
    }
    assert.equal((await resultOf(`${load}resample r 100 Hz | spectrum`, files)).error, undefined);
  });

  it('needs no rate for levels, running levels, a line taken out and a plot', async () => {
    const files = uneven(0.4);
    for (const step of ['levels r', 'running r over 1 s', 'detrend r linear', 'plot r', 'detrend r']) {
      const { error, warnings } = await resultOf(load + step, files);
      assert.equal(error, undefined, step);
      assert.deepEqual(ownCodes(warnings), [], step);
    }
  });

  it('is compared by its bands after the same step, and told for both sides', async () => {
    const files = { ...uneven(0.15), 'b.csv': uneven(0.15, sine(4, 0.5))['a.csv'] };
    const sides = 'a = load "a.csv" unit g\nb = load "b.csv" unit g\n';
    const { warnings, error } = await resultOf(`${sides}compare a with b over 2..8 Hz`, files);
    assert.equal(error, undefined);
    assert.equal(warnings.filter(({ code, message }) => code === 'rate.evened' && /^Compare/.test(message)).length, 2);
    const whole = await resultOf(`${sides}compare a with b metric p99`, files);
    assert.deepEqual(
      whole.warnings.filter(({ code }) => code === 'rate.evened'),
      [],
    );
  });

  it('warns at the resampling by hand how wide the widest step was', async () => {
    const codes = await warningsOf(`${load}resample r 100 Hz`, uneven(0.4));
    assert.ok(codes.includes('resample.uneven'));
  });

  it('is trimmed by the readings’ own times', async () => {
    const { runs } = await valueOf('runs', `${load}trim r 5..7 s`, uneven(0.4));
    const times = runs[0].stamps?.times;
    assert.ok(times !== undefined && times.length > 300);
    assert.ok(times[0] >= 5 && times[0] < 5.02 && times.at(-1)! < 7 && times.at(-1)! > 6.98);
  });
});

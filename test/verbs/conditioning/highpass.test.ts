import { strict as assert } from 'node:assert';
import { signalsOf } from '../../../src/values/run.ts';
import { errorOf, near, recordingOf, resultOf, rmsOf, sine, valueOf, warningsOf } from '../notebook.ts';

const load = 'r = load "a.csv" unit g\n';
const two = { 'a.csv': recordingOf({ z: (t) => sine(5)(t) + sine(40)(t) + 1 }) };
const middle = (samples: Float64Array): Float64Array => samples.subarray(400, 3600);

describe('highpass, lowpass and bandpass', () => {
  it('halve a sine at the corner, because they pass forwards and backwards', async () => {
    const files = { 'a.csv': recordingOf({ z: sine(20) }) };
    for (const step of ['highpass r 20 Hz', 'lowpass r 20 Hz', 'lowpass r 20 Hz order 2', 'bandpass r 20..60 Hz']) {
      const { runs } = await valueOf('runs', load + step, files);
      near(rmsOf(middle(signalsOf(runs[0])[0].samples)), 0.5 * Math.SQRT1_2, 2e-3);
    }
  });

  it('keep the time of what they pass', async () => {
    const { runs } = await valueOf('runs', `${load}bandpass r 2..12 Hz`, two);
    const { samples } = signalsOf(runs[0])[0];
    for (let i = 1000; i < 2000; i++) assert.ok(Math.abs(samples[i] - sine(5)(i / 200)) < 0.01, `sample ${i}`);
  });

  it('take gravity out where they cut low, and say so of the channel', async () => {
    const high = (await valueOf('runs', `${load}highpass r 20 Hz`, two)).runs[0];
    const low = (await valueOf('runs', `${load}lowpass r 20 Hz`, two)).runs[0];
    near(rmsOf(middle(signalsOf(high)[0].samples)), Math.SQRT1_2, 3e-3);
    near(rmsOf(middle(signalsOf(low)[0].samples)), Math.sqrt(1.5), 1e-3);
    assert.deepEqual(
      [high, low].map(({ channels }) => channels[0].includesStatic),
      [false, true],
    );
    assert.deepEqual(high.history, ['highpass 20 Hz order 4, forwards and backwards']);
  });

  it('leave the raw samples as they were', async () => {
    const files = { 'a.csv': recordingOf({ z: sine(5) }) };
    const { value } = await resultOf(`${load}f = highpass r 20 Hz\nlevels r`, files);
    assert.ok(value?.kind === 'levels');
    near(value.rows[0].rms, Math.SQRT1_2, 1e-3);
  });

  it('filter each side of a gap by itself', async () => {
    const at = Array.from({ length: 4000 }, (_, i) => i / 200 + (i < 2000 ? 0 : 3));
    const step = { 'a.csv': recordingOf({ z: (t) => (t < 10 ? 0 : 1) }, { times: at }) };
    const { runs } = await valueOf('runs', `${load}lowpass r 5 Hz`, step);
    assert.equal(runs[0].stretches.length, 2);
    const { samples } = signalsOf(runs[0])[0];
    assert.ok(Math.abs(samples[1999]) < 1e-9 && Math.abs(samples[2000] - 1) < 1e-9);
  });

  it('refuse a corner at or above half the rate, and the rate is in the sentence', async () => {
    for (const step of ['lowpass r 100 Hz', 'highpass r 150 Hz', 'bandpass r 10..120 Hz']) {
      const { code, message } = await errorOf(load + step, two);
      assert.equal(code, 'filter.corner');
      assert.match(message, /half the rate of a, which is 100 Hz/);
    }
    assert.match((await errorOf(`${load}highpass r 0 Hz`, two)).message, /above 0 Hz/);
  });

  it('refuse an order that is none, written or bound to a name', async () => {
    assert.match((await errorOf(`${load}highpass r 2 Hz order 2.5`, two)).message, /whole number/);
    assert.equal((await errorOf(`n = 5 / 2\n${load}highpass r 2 Hz order n`, two)).code.length > 0, true);
    assert.match((await errorOf(`${load}highpass r 2 Hz order 13`, two)).message, /12/);
  });

  it('refuse a stretch too short for the filter’s run-in, and say which', async () => {
    const { code, message } = await errorOf(`${load}trim r 1..1.05 s | lowpass 20 Hz order 8`, two);
    assert.equal(code, 'filter.short');
    assert.match(message, /longest unbroken stretch of a holds 10 samples, and this filter needs more than 27/);
  });

  // 20 s at 200 Hz, samples lost at 12 s and again after `between` more of them.
  const lossy = (between: number): Readonly<Record<string, string>> => {
    const times = Array.from({ length: 4000 }, (_, i) => (i + (i < 2400 ? 0 : i < 2400 + between ? 4 : 8)) / 200);
    return { 'a.csv': recordingOf({ z: sine(20) }, { times }) };
  };

  it('leave out a few samples between two losses rather than refuse the run, and say how many', async () => {
    for (const [step, length] of [
      ['highpass r 2 Hz', '2.5 s'],
      ['lowpass r 60 Hz', '0.08 s'],
      ['bandpass r 2..60 Hz', '2.5 s'],
      ['envelope r 2..60 Hz', '2.5 s'],
    ] as const) {
      const { value, warnings } = await resultOf(load + step, lossy(9));
      assert.ok(value?.kind === 'runs', step);
      const [run] = value.runs;
      assert.deepEqual(
        run.stretches.map(({ from, to, start }) => [from, to, Number(start.toFixed(6))]),
        [
          [0, 2400, 0],
          [2400, 3991, 12.085],
        ],
      );
      assert.equal(signalsOf(run)[0].samples.length, 3991);
      const told = warnings.find(({ code }) => code === 'stretch.left-out')?.message ?? '';
      assert.ok(told.includes(`leaves out 1 unbroken stretch of a, with 9 of its 4000 samples`), told);
      assert.ok(told.includes(`shorter than ${length}`), told);
    }
    // Next to what was lost the wave is as it would be at any other end of a recording.
    const { rows } = await valueOf('levels', `${load}highpass r 2 Hz | levels`, lossy(9));
    near(rows[0].rms, Math.SQRT1_2, 5e-3);
  });

  it('keep all that they can filter where little would be left, and say that it is short', async () => {
    // Ten stretches of 2 s each, where the corner calls for 5 s.
    const times = Array.from({ length: 4000 }, (_, i) => (i + 4 * Math.floor(i / 400)) / 200);
    const files = { 'a.csv': recordingOf({ z: sine(20) }, { times }) };
    const { value, warnings } = await resultOf(`${load}highpass r 1 Hz`, files);
    assert.ok(value?.kind === 'runs' && value.runs[0].stretches.length === 10);
    assert.ok(warnings.some(({ code }) => code === 'filter.unsettled'));
    assert.ok(!warnings.some(({ code }) => code === 'stretch.left-out'));
  });

  it('warn where a stretch is mostly the filter settling', async () => {
    assert.deepEqual(await warningsOf(`${load}trim r 0..2 s | highpass 1 Hz`, two), ['filter.unsettled']);
    assert.deepEqual(await warningsOf(`${load}highpass r 1 Hz`, two), []);
  });

  it('need an operand that says where', async () => {
    for (const step of ['highpass r', 'lowpass r', 'bandpass r'])
      assert.equal((await errorOf(load + step, two)).code, 'operand.missing');
  });
});

import { strict as assert } from 'node:assert';
import { signalsOf } from '../../../src/values/run.ts';
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
    assert.deepEqual(displacement.history, ['integrated to displacement above 2 Hz']);
  });

  it('a velocity once integrated is the displacement', async () => {
    const twice = await valueOf('runs', `${load}integrate r to velocity | integrate to displacement`, twenty);
    const once = await valueOf('runs', `${load}integrate r to displacement`, twenty);
    const [a, b] = [twice, once].map(({ runs }) => signalsOf(runs[0])[0].samples);
    a.forEach((value, i) => assert.ok(Math.abs(value - b[i]) < 1e-9));
  });

  it('leads the phase as calculus says: a sine of acceleration is a minus cosine of velocity', async () => {
    const { samples } = signalsOf((await valueOf('runs', `${load}integrate r to velocity`, twenty)).runs[0])[0];
    const amplitude = (0.3 * Math.SQRT2 * 9.80665) / (2 * Math.PI * 20);
    for (let i = 0; i < samples.length; i += 11)
      assert.ok(Math.abs(samples[i] + amplitude * Math.cos((2 * Math.PI * 20 * i) / 400)) < 1e-6);
  });

  it('warns where the low cut decides the figure', async () => {
    const gauss = noise(5);
    const rough = { 'a.csv': recordingOf({ z: () => 1 + 0.1 * gauss() }, { rate: 200 }) };
    assert.deepEqual(await warningsOf(`${load}integrate r to displacement`, rough), ['integrate.low-cut']);
    assert.deepEqual(await warningsOf(`${load}integrate r to displacement`, twenty), []);
  });

  it('warns of a stretch with few periods of the low cut', async () => {
    assert.deepEqual(await warningsOf(`${load}trim r 0..2 s | integrate to velocity`, twenty), ['integrate.short']);
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

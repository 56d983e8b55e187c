import { strict as assert } from 'node:assert';
import { signalsOf } from '../../../src/values/run.ts';
import { errorOf, near, noise, recordingOf, valueOf } from '../notebook.ts';

/** A knock 8 times a second that rings at 150 Hz, in some noise. */
const gauss = noise(4);
const knock = (t: number): number => {
  const since = t % 0.125;
  return Math.exp(-60 * since) * Math.sin(2 * Math.PI * 150 * since) + 0.05 * gauss();
};
const files = { 'a.csv': recordingOf({ z: knock }, { rate: 1000, seconds: 40 }) };
const load = 'r = load "a.csv" unit g\n';

describe('envelope', () => {
  it('has a line at the rate of the knocks, where the signal itself has none', async () => {
    const height = async (of: string): Promise<number> => {
      const text = `${load}spectrum (${of}) using window flattop 4 s as amplitude`;
      return (await valueOf('spectrum', text, files)).entries[0].level[32];
    };
    // By the transform of the ringing, 2/T |1/(60 + 2 pi 8 i)| of the envelope and 2/T 2 pi 150 / (2 pi 150)^2 of the signal.
    near(await height('envelope r 80..300 Hz'), 0.2, 0.25);
    near(await height('r'), 0.017, 0.25);
  });

  it('of a steady tone is its amplitude, in the channel’s unit, and says so in the history', async () => {
    const tone = { 'a.csv': recordingOf({ z: (t) => 1 + 0.4 * Math.sin(2 * Math.PI * 100 * t) }, { rate: 1000 }) };
    const [run] = (await valueOf('runs', `${load}envelope r 50..200 Hz | trim 2..18 s`, tone)).runs;
    for (const value of signalsOf(run)[0].samples) near(value, 0.4, 0.02);
    assert.equal(run.channels[0].unit.symbol, 'g');
    assert.match(run.history.join('; '), /bandpass 50\.\.200 Hz .*; envelope of 50\.\.200 Hz/);
  });

  it('refuses a band past half the rate, and none', async () => {
    assert.equal((await errorOf(`${load}envelope r 100..900 Hz`, files)).code, 'filter.corner');
    assert.equal((await errorOf(`${load}envelope r`, files)).code, 'operand.missing');
  });
});

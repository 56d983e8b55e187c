import { strict as assert } from 'node:assert';
import { errorOf, near, recordingOf, resultOf, sine, uniform, valueOf } from '../notebook.ts';

/** When samples were taken at 200 Hz: all at once, or with a stretch of 100 between two losses. */
const whole = Array.from({ length: 8000 }, (_, i) => i / 200);
const broken = whole.map((t, i) => t + (i < 4000 ? 0 : i < 4100 ? 0.02 : 0.04));

const files = Object.fromEntries(
  [1, 1.02, 0.97].flatMap((level, k) => [
    [`a${k}.csv`, recordingOf({ 'z (m/s²)': sine(10, level) }, { times: k === 1 ? broken : whole })],
    [`b${k}.csv`, recordingOf({ 'z (m/s²)': sine(10, 0.8 * level) }, { times: whole })],
  ]),
);
const load = 'a = load "a*.csv"\nb = load "b*.csv"\n';

describe('a comparison of weighted levels', () => {
  it('leaves out a short stretch between two losses as the verb does, and says so', async () => {
    const { value, warnings } = await resultOf(`${load}compare a with b metric wk`, files);
    assert.ok(value?.kind === 'comparison');
    const told = warnings.filter(({ code }) => code === 'stretch.left-out').map(({ message }) => message);
    assert.equal(told.length, 1);
    assert.match(told[0], /^Compare leaves out 1 unbroken stretch of a1, with 100 of its 8000 samples: it is shorter/);
    const { rows } = await valueOf('levels', `${load}weight a wk | levels`, files);
    value.rows[0].aRuns.forEach((level, k) => near(level, rows[k].rms, 1e-12));
  });

  it('warns of a rate too low for what the weighting counts, and of stretches that are all too short', async () => {
    const codes = async (text: string): Promise<readonly string[]> =>
      (await resultOf(load + text, files)).warnings
        .map(({ code }) => code)
        .filter((code) => code.startsWith('weight.'));
    assert.deepEqual(await codes('compare a with b metric wk'), []);
    assert.ok((await codes('compare a with b metric wh')).includes('weight.rate'));
    assert.ok((await codes('compare a with b metric wf')).includes('weight.short'));
  });

  it('refuses a run of which every period is broken by losses', async () => {
    const random = uniform(4);
    const times = Array.from({ length: 8000 }, (_, i) => i / 200).filter(() => random() >= 0.05);
    const lossy = { ...files, 'b1.csv': recordingOf({ 'z (m/s²)': sine(10, 0.8) }, { times }) };
    const { code, message } = await errorOf(`${load}compare a with b metric wk`, lossy);
    assert.equal(code, 'weight.broken');
    assert.match(message, /^\d\d % of the samples of b1 lie in unbroken stretches/);
  });

  it('is refused of sides that were not weighted alike, with samples or with spectra, and given of those that were', async () => {
    const text = `${load}w = weight a wk\nv = weight b wk\nd = weight b wd\n`;
    for (const of of ['', ' over 5..15 Hz']) {
      const { code, message } = await errorOf(`${text}compare w with b${of}`, files);
      assert.equal(code, 'compare.weightings');
      assert.match(message, /^a is weighted by Wk and b is not weighted: weight both alike, or neither/);
      assert.equal((await errorOf(`${text}compare w with d${of}`, files)).code, 'compare.weightings');
    }
    const spectra = `${text}s = spectrum w\nt = spectrum b\n`;
    assert.equal((await errorOf(`${spectra}compare s with t over 5..15 Hz`, files)).code, 'compare.weightings');
    assert.equal((await valueOf('comparison', `${text}compare w with v`, files)).rows.length, 1);
  });
});

import { strict as assert } from 'node:assert';
import { axesOf } from '../../../src/values/run.ts';
import { recordingOf, valueOf } from '../notebook.ts';

/** A slope of 0.5 g/s about a mean of 3 g, and nothing else, for 4 s. */
const files = { 'run.csv': recordingOf({ 'x (g)': (t) => 3 + 0.5 * (t - 2) }, { seconds: 4 }) };

const detrended = async (what: string): Promise<Float64Array> => {
  const { runs } = await valueOf('runs', `r = load "run.csv"\ndetrend r${what}`, files);
  return axesOf(runs[0].channels[0])[0].samples;
};

describe('detrend', () => {
  it('takes the mean out, and leaves the slope', async () => {
    for (const what of ['', ' mean']) {
      const samples = await detrended(what);
      const mean = samples.reduce((sum, value) => sum + value, 0) / samples.length;
      assert.ok(Math.abs(mean) < 1e-9, what);
      assert.ok(Math.abs(samples[799] - samples[0] - 0.5 * (799 / 200)) < 1e-6, what);
    }
  });

  it('takes the line out', async () => {
    const samples = await detrended(' linear');
    assert.ok(samples.every((value) => Math.abs(value) < 1e-6));
  });

  it('notes the step in the history of the run', async () => {
    const { runs } = await valueOf('runs', 'r = load "run.csv"\ndetrend r', files);
    assert.match(runs[0].history.at(-1) ?? '', /mean/);
  });
});

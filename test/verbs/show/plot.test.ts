import { strict as assert } from 'node:assert';
import { errorOf, recordingOf, resultOf, sine } from '../notebook.ts';

const files = { 'a.csv': recordingOf({ x: sine(7), z: sine(10) }) };
const load = 'r = load "a.csv" unit g\nS = spectrum r\n';
const made: Readonly<Record<string, string>> = {
  runs: 'r',
  running: '(running r)',
  spectrogram: '(spectrogram r)',
  spectrum: 'S',
  bands: '(band S third-octave 16..63 Hz)',
  peaks: '(peaks S)',
  transfer: '(transfer r from x to z)',
  profile: '(profile 5 Hz 1 g^2/Hz, 50 Hz 1 g^2/Hz)',
  levels: '(levels r)',
};

describe('plot', () => {
  it('draws every kind that has a picture', async () => {
    for (const [kind, text] of Object.entries(made)) {
      const { value, error } = await resultOf(`${load}plot ${text}`, files);
      assert.equal(error?.message, undefined, kind);
      assert.ok(value?.kind === 'chart');
      assert.deepEqual(
        value.subjects.map(({ value: subject }) => subject.kind),
        [kind],
      );
    }
  });

  it('puts what shares an axis in one chart, and refuses time with frequency', async () => {
    for (const together of ['r, (running r)', 'S, (peaks S), (profile 5 Hz 1 g^2/Hz, 50 Hz 1 g^2/Hz)'])
      assert.equal((await resultOf(`${load}plot ${together}`, files)).error, undefined, together);
    for (const apart of ['r, S', '(running r), (peaks S)', '(spectrogram r), (transfer r from x to z)']) {
      const { code, message } = await errorOf(`${load}plot ${apart}`, files);
      assert.equal(code, 'plot.mixed');
      assert.match(message, /two charts/);
    }
  });

  it('says what can be drawn where something can’t', async () => {
    assert.match((await errorOf(`${load}plot (window hann 2 s)`, files)).message, /window/);
    assert.match((await errorOf('k = 5 N/mm\nplot k')).message, /quantity/);
  });

  it('refuses a stretch of the axis that ends before it begins', async () => {
    assert.match((await errorOf(`${load}plot S over 50..5 Hz`, files)).message, /5..50 Hz/);
  });
});

describe('table', () => {
  it('gives the numbers behind every kind that has some', async () => {
    for (const [kind, text] of Object.entries(made)) {
      const { value, error } = await resultOf(`${load}table ${text}`, files);
      assert.equal(error?.message, undefined, kind);
      assert.ok(value?.kind === 'table' && value.rows.length > 0, kind);
      assert.ok(
        value.rows.every((row) => row.length === value.columns.length),
        kind,
      );
    }
  });
});

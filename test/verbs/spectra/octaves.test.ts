import { strict as assert } from 'node:assert';
import { toJson } from '../../../src/values/json.ts';
import { errorOf, near, noise, recordingOf, resultOf, sine, valueOf, warningsOf, ownCodes } from '../notebook.ts';

const gauss = noise(9);
const rough = { 'a.csv': recordingOf({ z: () => gauss() }, { rate: 400, seconds: 40 }) };
const load = 'r = load "a.csv" unit g\nS = spectrum r using window hann 8 s\n';

describe('bands of an octave', () => {
  it('are those of IEC 61260-1, called by their nominal frequencies', async () => {
    const { bands } = await valueOf('bands', `${load}band S third-octave 25..63 Hz`, rough);
    assert.deepEqual(
      bands.map(({ label }) => label),
      ['25', '31.5', '40', '50', '63'],
    );
    near(bands[0].from, 22.3872, 1e-5);
    near(bands[4].to, 70.7946, 1e-5);
    for (let i = 1; i < bands.length; i++) assert.equal(bands[i].from, bands[i - 1].to);
  });

  it('add up in mean square to the band that spans them, whatever the fraction', async () => {
    const [whole] = (await valueOf('bands', `${load}band S 31.622776601683793..63.09573444801933 Hz`, rough)).rows;
    for (const fraction of ['sixth-octave', 'twelfth-octave']) {
      const { rows } = await valueOf('bands', `${load}band S ${fraction} 31.6..63.1 Hz`, rough);
      const sum = rows.reduce((total, { rms }) => total + rms ** 2, 0);
      near(Math.sqrt(sum), whole.rms, 1e-9);
    }
    const parts = await valueOf('bands', `${load}band S third-octave 12.5..160 Hz`, rough);
    const octaves = await valueOf('bands', `${load}band S octave 16..125 Hz`, rough);
    const total = ({ rows }: typeof parts): number => rows.reduce((sum, { rms }) => sum + rms ** 2, 0);
    near(total(parts), total(octaves), 1e-9);
  });

  it('hold the whole of a line in the one band it lies in', async () => {
    const line = { 'a.csv': recordingOf({ z: sine(50) }, { rate: 400, seconds: 40 }) };
    const { rows } = await valueOf('bands', `${load}band S third-octave 20..100 Hz`, line);
    near(rows.find(({ band }) => band.label === '50')!.rms, Math.SQRT1_2, 1e-3);
    assert.ok(rows.filter(({ band }) => band.label !== '50').every(({ rms }) => rms < 1e-3));
  });

  it('of fewer than four bins have no figure but a warning that says which window resolves them', async () => {
    const text = `${load}B = band S third-octave 1..20 Hz`;
    const { value, warnings } = await resultOf(text, rough);
    assert.ok(value?.kind === 'bands');
    const empty = value.rows.filter(({ rms }) => Number.isNaN(rms)).map(({ band }) => band.label);
    assert.deepEqual(empty, ['1', '1.25', '1.6', '2']);
    assert.deepEqual(ownCodes(warnings), ['band.few-bins']);
    assert.match(warnings[0].message, /4 bands from 1 to 2 Hz .* window of 18 s/);
    const json = toJson(value) as { rows: { label: string; rms: number | null }[] };
    assert.deepEqual(
      json.rows.slice(3, 5).map(({ rms }) => rms === null),
      [true, false],
    );
    assert.equal((await errorOf(`${text}\nB[1].rms`, rough)).code, 'field.many');
    assert.equal((await errorOf(`${load}b = band S third-octave 1..1 Hz`, rough)).code, 'range.empty');
    const single = `${load}b = band S third-octave 1..1.2 Hz\nb.rms`;
    assert.equal((await errorOf(single, rough)).code, 'field.absent');
    assert.deepEqual(
      await warningsOf('r = load "a.csv" unit g\nband (spectrum r using window hann 18 s) third-octave 1..2 Hz', rough),
      ['spectrum.few'],
    );
  });

  it('past half the rate are refused, with where to end', async () => {
    const { code, message } = await errorOf(`${load}band S third-octave 100..200 Hz`, rough);
    assert.equal(code, 'band.outside');
    assert.match(
      message,
      /band of 200 Hz reaches to 223\.9 Hz, past half the rate of a, which is 200 Hz: end the range below 177\.8 Hz/,
    );
    assert.equal((await errorOf(`${load}band S octave 50..60 Hz`, rough)).code, 'band.none');
    assert.match((await errorOf(`${load}band S octave 0..50 Hz`, rough)).message, /above 0 Hz/);
    assert.equal((await errorOf(`${load}band S octave`, rough)).code, 'operand.missing');
    assert.match((await errorOf(`${load}band S quarter-octave 10..50 Hz`, rough)).message, /quarter-octave/);
  });

  it('of plain ranges are as they were', async () => {
    const { bands, rows } = await valueOf('bands', `${load}band S 10..50 Hz, 50..100 Hz`, rough);
    assert.deepEqual(bands, [
      { from: 10, to: 50 },
      { from: 50, to: 100 },
    ]);
    near(rows[0].rms, Math.sqrt(40 / 200), 0.03);
  });
});

import { strict as assert } from 'node:assert';
import { present } from '../../../src/charts/present.ts';
import { tabulate } from '../../../src/values/tabulate.ts';
import { toJson } from '../../../src/values/json.ts';
import { errorOf, near, noise, recordingOf, resultOf, sine, valueOf, ownCodes } from '../notebook.ts';

const withNoise = (seed: number): string => {
  const gauss = noise(seed);
  return recordingOf({ z: (t) => sine(20.3)(t) + 0.5 * sine(47)(t) + 0.2 * gauss() }, { rate: 200, seconds: 60 });
};
const lines = { 'a 1.csv': withNoise(1), 'a 2.csv': withNoise(2) };
const load = 'r = load "a *.csv" unit g\nS = spectrum r\n';

/** Noise through a resonance of 20 Hz with 5 % of damping. */
function resonance(): string {
  const gauss = noise(4);
  const [omega, zeta, step] = [2 * Math.PI * 20, 0.05, 1 / 400];
  const decay = Math.exp(-zeta * omega * step);
  const turn = omega * Math.sqrt(1 - zeta ** 2) * step;
  let [y1, y2] = [0, 0];
  const next = (): number => {
    const y = 2 * decay * Math.cos(turn) * y1 - decay ** 2 * y2 + gauss();
    [y1, y2] = [y, y1];
    return y / 100;
  };
  return recordingOf({ z: next }, { rate: 400, seconds: 300 });
}

describe('peaks', () => {
  it('are the lines of each run and of their mean, highest first, between the bins', async () => {
    const { rows } = await valueOf('peaks', `${load}peaks S 5..90 Hz`, lines);
    assert.deepEqual(
      rows.map(({ run }) => run),
      ['a 1', 'a 1', 'a 2', 'a 2', 'mean', 'mean'],
    );
    for (let i = 0; i < rows.length; i += 2) {
      near(rows[i].frequency, 20.3, 2e-3);
      near(rows[i + 1].frequency, 47, 2e-3);
      assert.ok(rows[i].level > rows[i + 1].level && rows[i].prominence > 10);
    }
    assert.equal(rows[0].unit.symbol, 'g^2/Hz');
    assert.equal(rows[0].width, undefined, 'a pure line has no width of its own');
  });

  it('have the height of the sine where the spectrum is of amplitude', async () => {
    const text =
      'r = load "a 1.csv" unit g\nP = peaks (spectrum r using window flattop 4 s as amplitude) 5..90 Hz count 1';
    const { rows } = await valueOf('peaks', text, lines);
    assert.equal(rows.length, 1);
    near(rows[0].level, 1, 0.02);
    assert.equal(rows[0].unit.symbol, 'g');
  });

  it('have the height of a sine between two bins, and say by how much its bin reads low', async () => {
    const between = { 'a.csv': recordingOf({ z: sine(20.25) }, { rate: 200, seconds: 60 }) };
    const text = 'r = load "a.csv" unit g\npeaks (spectrum r using window hann 2 s as amplitude) 5..90 Hz';
    const value = await valueOf('peaks', text, between);
    const { rows, unseenWidth } = value;
    near(rows[0].level, 1, 2e-3);
    near(rows[0].frequency, 20.25, 1e-4);
    near(rows[0].correction!, 1 / 0.849 - 1, 5e-3);
    assert.equal(rows[0].shape, 'line');
    // One resolution does not tell a line from a resonance in its lobe: hann of 2 s, 1.44 bins of 0.5 Hz wide.
    const lobe = 1.44 * 0.5 * Math.sqrt(1.15 ** 2 - 1);
    near(unseenWidth ?? NaN, lobe, 0.01);
    assert.match(JSON.stringify(present(value, undefined, []).parts), /a line, or a resonance narrower than 0\.41 Hz/);
  });

  it('of too few bins are told, with the window that resolves them', async () => {
    const text = (length: number): string =>
      `r = load "a.csv" unit g\npeaks (spectrum r using window hann ${length} s) 5..100 Hz count 1`;
    const { warnings } = await resultOf(text(1), { 'a.csv': resonance() });
    assert.deepEqual(ownCodes(warnings), ['peaks.unresolved']);
    const said = /At|at ([\d.]+) Hz is only ([\d.]+) bins wide.* window of ([\d.]+) s/.exec(warnings[0].message)!;
    near(Number(said[1]), 20, 0.02);
    assert.ok(Number(said[2]) < 5);
    assert.deepEqual(ownCodes((await resultOf(text(Number(said[3])), { 'a.csv': resonance() })).warnings), []);
  });

  it('of a resonance have its width and damping', async () => {
    const text = 'r = load "a.csv" unit g\npeaks (spectrum r using window hann 4 s) 5..100 Hz count 1';
    const { rows } = await valueOf('peaks', text, { 'a.csv': resonance() });
    near(rows[0].frequency, 20, 0.02);
    near(rows[0].damping!, 0.05, 0.2);
    near(rows[0].width!, 2 * 0.05 * 20, 0.2);
  });

  it('are not found in noise alone, and the warning says so', async () => {
    const gauss = noise(7);
    const files = { 'a.csv': recordingOf({ z: () => gauss() }, { seconds: 60 }) };
    const { value, warnings } = await resultOf('peaks (spectrum (load "a.csv" unit g)) 5..90 Hz', files);
    assert.ok(value?.kind === 'peaks' && value.rows.length === 0);
    assert.deepEqual(ownCodes(warnings), ['peaks.none']);
    assert.match(warnings[0].message, /between 5 Hz and 90 Hz/);
  });

  it('are picked one by one, and their figures are fields', async () => {
    const { value } = await resultOf(`${load}P = peaks S[1] 5..90 Hz\nP[2].frequency`, lines);
    assert.ok(value?.kind === 'quantity' && value.quantity.unit.symbol === 'Hz');
    near(value.quantity.value, 47, 2e-3);
    assert.equal((await errorOf(`${load}P = peaks S[1]\nP[1].damping`, lines)).code, 'field.absent');
  });

  it('stand in a table and in JSON, a missing width as null', async () => {
    const value = await valueOf('peaks', `${load}peaks S[1] 5..90 Hz`, lines);
    assert.deepEqual(
      tabulate(value)?.columns.map(({ name }) => name),
      ['run', 'channel', 'frequency', 'level', 'shape', 'prominence', 'width', 'damping', 'correction'],
    );
    const { unit, rows } = toJson(value) as { unit: string; rows: { frequency_hz: number; width_hz: null }[] };
    assert.equal(unit, 'g^2/Hz');
    near(rows[0].frequency_hz, 20.3, 2e-3);
    assert.equal(rows[0].width_hz, null);
  });

  it('refuse a range past half the rate and a count that is none', async () => {
    assert.match((await errorOf(`${load}peaks S 5..150 Hz`, lines)).message, /half the rate/);
    assert.match((await errorOf(`${load}peaks S count 0`, lines)).message, /1/);
    assert.match((await errorOf(`n = 3 / 2\n${load}peaks S count n`, lines)).message, /whole number/);
  });
});

import { strict as assert } from 'node:assert';
import { tabulate } from '../../../src/values/tabulate.ts';
import { toJson } from '../../../src/values/json.ts';
import { errorOf, near, recordingOf, resultOf, sine, valueOf } from '../notebook.ts';

const files = { 'a.csv': recordingOf({ z: sine(12) }, { seconds: 40 }) };
const load = 'r = load "a.csv" unit g\nS = spectrum r\n';
const peakAt = (level: Float64Array): number => level.indexOf(Math.max(...level));

describe('orders', () => {
  it('divide frequency by the speed: joints of 0.1 m at 1.2 m/s pass at 12 Hz, which is 10 a metre', async () => {
    for (const by of ['1.2 m/s', '4.32 km/h']) {
      const { axis, entries } = await valueOf('spectrum', `${load}orders S by ${by}`, files);
      assert.deepEqual([axis?.name, axis?.unit.symbol], ['cycles per metre', '1/m']);
      near(peakAt(entries[0].level) * entries[0].spacing, 10, 1e-9);
      assert.equal(entries[0].unit.symbol, 'g^2*m');
    }
    const turns = await valueOf('spectrum', `${load}orders S by 240 rpm`, files);
    assert.deepEqual([turns.axis?.name, turns.axis?.by], ['order', '240 rpm']);
    near(peakAt(turns.entries[0].level) * turns.entries[0].spacing, 3, 1e-9);
    assert.equal(turns.entries[0].unit.symbol, 'g^2');
  });

  it('keep the mean square of a density and the height of a line', async () => {
    const plain = await valueOf('spectrum', `${load}S2 = S`, files);
    const over = await valueOf('spectrum', `${load}orders S by 1.2 m/s`, files);
    const area = ({ entries: [{ level, spacing }] }: typeof over): number =>
      level.reduce((sum, value) => sum + value * spacing, 0);
    near(area(over), area(plain), 1e-12);
    near(
      over.entries[0].low[24] / over.entries[0].level[24],
      plain.entries[0].low[24] / plain.entries[0].level[24],
      1e-12,
    );
    const heights = await valueOf(
      'spectrum',
      `r = load "a.csv" unit g\norders (spectrum r as amplitude) by 1.2 m/s`,
      files,
    );
    near(Math.max(...heights.entries[0].level), 1, 1e-3);
    assert.equal(heights.entries[0].unit.symbol, 'g');
  });

  it('give the means over runs the same axis', async () => {
    const two = { 'a.csv': files['a.csv'], 'b.csv': files['a.csv'] };
    const { means } = await valueOf('spectrum', 'r = load "*.csv" unit g\norders (spectrum r) by 1.2 m/s', two);
    near(peakAt(means[0].level) * means[0].spacing, 10, 1e-9);
    assert.equal(means[0].unit.symbol, 'g^2*m');
  });

  it('are refused where frequencies are meant', async () => {
    const over = `${load}O = orders S by 1.2 m/s\n`;
    for (const step of [
      'band O 5..10 Hz',
      'peaks O',
      'orders O by 1.2 m/s',
      'compare O with S over 5..10 Hz',
      'profile 5 Hz 1 g^2/Hz, 10 Hz 1 g^2/Hz against O',
    ]) {
      const { code, message } = await errorOf(over + step, files);
      assert.equal(code, 'spectrum.orders', step);
      assert.match(message, /cycles per metre/);
    }
    assert.match((await errorOf(`${over}plot O, S`, files)).message, /two charts/);
    assert.match((await errorOf(`${over}plot O over 5..10 Hz`, files)).message, /leave them out/);
    assert.equal((await resultOf(`${over}plot O`, files)).error, undefined);
  });

  it('refuse no speed, a speed of nothing, and what is none', async () => {
    assert.match((await errorOf(`${load}orders S`, files)).message, /orders S by 1\.2 m\/s/);
    assert.match((await errorOf(`${load}orders S by 0 m/s`, files)).message, /above 0/);
    assert.match((await errorOf(`${load}orders S by 3 kg`, files)).message, /speed/);
  });

  it('say their axis in a table and in JSON', async () => {
    const value = await valueOf('spectrum', `${load}orders S by 1.2 m/s`, files);
    assert.deepEqual(tabulate(value)?.columns[0], { name: 'cycles per metre', unit: '1/m' });
    const json = toJson(value) as Record<string, unknown>;
    assert.deepEqual([json.axis, json.axis_unit, json.by], ['cycles per metre', '1/m', '1.2 m/s']);
    near(json.spacing as number, 0.5 / 1.2, 1e-12);
    assert.equal('spacing_hz' in json || 'frequency_hz' in json, false);
  });
});

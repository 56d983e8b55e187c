import { strict as assert } from 'node:assert';
import type { SpectrumValue } from '../../../src/values/spectrum.ts';
import { errorOf, near, recordingOf, valueOf } from '../notebook.ts';

/** Turns since the start of a machine whose speed wanders by a tenth about 9 turns a second. */
const turnsAt =
  (speed: number) =>
  (t: number): number =>
    speed * t + ((0.1 * speed) / (2 * Math.PI * 0.2)) * (1 - Math.cos(2 * Math.PI * 0.2 * t));

/** A line of height 0.3 g at order 2.5 and one of 0.2 g at 31 Hz, with two pulses a turn. */
function machine(speed: number): string {
  const turns = turnsAt(speed);
  const z = (t: number): number =>
    1 + 0.3 * Math.sin(2 * Math.PI * 2.5 * turns(t)) + 0.2 * Math.sin(2 * Math.PI * 31 * t);
  return recordingOf(
    { 'z (g)': z, 'pulse (V)': (t) => ((2 * turns(t)) % 1 < 0.4 ? 5 : 0.2) },
    { rate: 400, seconds: 30 },
  );
}

const files = {
  'a.csv': machine(9),
  'b.csv': machine(11),
  'runs.csv': 'file,condition,shaft (rpm)\na.csv,x,540\nb.csv,x,660\n',
};
const load = 'r = load sheet "runs.csv" channel z tacho pulse\n';
const highest = ({ entries }: SpectrumValue, k = 0): { at: number; level: number } => {
  const { level, spacing } = entries[k];
  const top = level.reduce((best, value, bin) => (value > level[best] ? bin : best), 0);
  return { at: top * spacing, level: level[top] };
};

describe('orders by a tachometer', () => {
  it('keep a line together that one speed smears, at its order and height', async () => {
    const value = await valueOf('spectrum', `${load}orders r tacho pulse pulses 2 using hann 4 s as amplitude`, files);
    for (const k of [0, 1]) {
      near(highest({ ...value }, k).at, 2.5, 0.005);
      near(highest({ ...value }, k).level, 0.3, 0.02);
    }
    assert.deepEqual([value.axis?.name, value.axis?.unit.symbol, value.entries[0].unit.symbol], ['order', '', 'g']);
    assert.match(value.axis?.by ?? '', /^pulse, 2 pulses a turn, 5\d\d to 6\d\d.* rpm, segments of 40 turns$/);
    // The tachometer itself is not of the result, and runs of other speeds share an axis and a mean.
    assert.deepEqual(
      value.entries.map(({ channel }) => channel.name),
      ['z', 'z'],
    );
    assert.equal(value.entries[0].spacing, value.entries[1].spacing);
    near(Math.max(...value.means[0].level), 0.3, 0.02);
    const smeared = await valueOf(
      'spectrum',
      `${load}orders (channel r z) column shaft using hann 4 s as amplitude`,
      files,
    );
    assert.ok(highest(smeared).level < 0.22);
  });

  it('keep the mean square of a density, and end at half the rate of the fastest turn', async () => {
    const value = await valueOf('spectrum', `${load}orders r tacho pulse pulses 2`, files);
    const [{ level, spacing, unit }] = value.entries;
    assert.equal(unit.symbol, 'g^2');
    near(
      level.reduce((sum, one) => sum + one * spacing, 0),
      (0.3 ** 2 + 0.2 ** 2) / 2,
      0.03,
    );
    near(level.length * spacing, 200 / (9 * 1.1), 0.02);
  });

  it('go by the pulses a turn, of runs trimmed, with other axes beside', async () => {
    const one = await valueOf(
      'spectrum',
      `${load}orders (trim r 3..28 s) tacho pulse using hann 4 s as amplitude`,
      files,
    );
    near(highest(one).at, 1.25, 0.005);
  });

  it('by a column of the sheet divide each run by its own speed', async () => {
    const value = await valueOf('spectrum', `${load}S = spectrum (channel r z)\norders S column shaft`, files);
    const plain = await valueOf('spectrum', `${load}spectrum (channel r z)`, files);
    near(value.entries[0].spacing, plain.entries[0].spacing / 9, 1e-12);
    near(value.entries[1].spacing, plain.entries[1].spacing / 11, 1e-12);
    assert.deepEqual([value.axis?.name, value.axis?.by], ['order', 'shaft by the run sheet, 9 to 11 Hz']);
    // Axes that differ by a fifth have no common mean.
    assert.equal(value.means.length, 0);
    const metres = { ...files, 'runs.csv': files['runs.csv'].replace('shaft (rpm)', 'shaft (m/s)') };
    const way = await valueOf('spectrum', `${load}orders (channel r z) column shaft`, metres);
    assert.equal(way.axis?.name, 'cycles per metre');
  });

  it('refuse what says no speed', async () => {
    const code = async (line: string, load2 = load): Promise<string> => (await errorOf(load2 + line, files)).code;
    assert.equal(await code('orders r by 9 Hz tacho pulse'), 'orders.ways');
    assert.equal(await code('orders r by 9 Hz pulses 2'), 'orders.ways');
    assert.equal(await code('orders (spectrum r) tacho pulse'), 'orders.ways');
    assert.equal(await code('orders r column torque'), 'orders.column');
    assert.equal(await code('orders r tacho shaft'), 'orders.channel');
    assert.equal(await code('orders (channel r pulse) tacho pulse'), 'orders.alone');
    assert.equal(await code('orders (trim r 0..0.1 s) tacho pulse'), 'orders.still');
    assert.equal(await code('orders r tacho pulse using hann 60 s'), 'orders.short');
    assert.equal(await code('orders r'), 'orders.speed');
    assert.equal(await code('load "a.csv" tacho shaft', ''), 'channel.unknown');
  });

  it('take a tachometer in volts along with the axes, which load would else not settle', async () => {
    const { runs } = await valueOf('runs', 'load "a.csv" tacho "pulse (V)"', files);
    assert.deepEqual(
      runs[0].channels.map(({ name, unit }) => [name, unit.symbol]),
      [
        ['z', 'g'],
        ['pulse', ''],
      ],
    );
    assert.equal((await errorOf('load "a.csv" channel z, pulse', files)).code, 'unit.unsettled');
  });
});

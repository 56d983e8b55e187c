import { strict as assert } from 'node:assert';
import { sampleCount, signalsOf } from '../../../src/values/run.ts';
import { errorOf, noise, recordingOf, resultOf, sine, valueOf } from '../notebook.ts';

const shake = noise(1);
const axes = {
  'ax (g)': sine(5, 0.1),
  'ay (g)': sine(7, 0.1),
  'az (g)': (t: number): number => 1 + 0.2 * Math.sin(2 * Math.PI * 9 * t) + 0.01 * shake(),
};
const files = {
  'raw/a 1.csv': recordingOf({ ...axes, post: () => 0.3 }),
  'raw/a 2.csv': recordingOf(axes),
  'more/a 2.csv': recordingOf(axes),
};

describe('load', () => {
  it('takes the axes alone where there are such, in natural order of the files', async () => {
    const { runs, set } = await valueOf('runs', 'r = load "raw/*.csv"', files);
    assert.equal(set, 'r');
    assert.deepEqual(
      runs.map(({ label }) => label),
      ['a 1', 'a 2'],
    );
    assert.deepEqual(
      runs[0].channels.map(({ name, unit, unitFrom }) => [name, unit.symbol, unitFrom]),
      [
        ['x', 'g', 'the header'],
        ['y', 'g', 'the header'],
        ['z', 'g', 'the header'],
      ],
    );
  });

  it('takes a channel by our name for it, by its header, or by the word its header begins with', async () => {
    for (const name of ['z', '"az (g)"', 'az']) {
      const { runs } = await valueOf('runs', `load "raw/a 1.csv" channel ${name}`, files);
      assert.deepEqual(
        runs[0].channels.map((channel) => channel.name),
        ['z'],
        name,
      );
    }
    assert.match(
      (await errorOf('load "raw/a 1.csv" channel q', files)).message,
      /a 1 has no channel q: it has x, y, z and post/,
    );
  });

  it('warns of the channels that it takes, not of the others', async () => {
    const clipped = {
      'ax (g)': (t: number) => Math.min(0.2, 0.3 * Math.sin(31 * t)),
      'az (g)': (t: number) => 1 + 0.2 * Math.sin(57 * t) + 0.001 * Math.sin(t * t),
    };
    const codes = async (option: string): Promise<readonly string[]> =>
      (await resultOf(`load "a.csv" ${option}`, { 'a.csv': recordingOf(clipped) })).warnings.map(({ code }) => code);
    assert.ok((await codes('channel x')).includes('clipped'));
    assert.ok(!(await codes('channel z')).includes('clipped'));
  });

  it('tells runs of one name apart by their folders, and calls a set as its label says', async () => {
    const { runs } = await valueOf('runs', 'load "raw/a 2.csv", "more/a 2.csv"', files);
    assert.deepEqual(
      runs.map(({ label }) => label),
      ['raw/a 2.csv', 'more/a 2.csv'],
    );
    const one = await valueOf('runs', 'r = load "raw/a 2.csv" label "before"', files);
    assert.deepEqual([one.set, one.runs[0].label], ['before', 'before']);
  });

  it('gives a column that is no axis the unit that the option states, and refuses it without', async () => {
    const { runs } = await valueOf('runs', 'load "raw/a 1.csv" channel post unit g', files);
    assert.deepEqual(
      runs[0].channels.map(({ name, unit, unitFrom }) => [name, unit.symbol, unitFrom]),
      [['post', 'g', 'the option']],
    );
    const { code, message } = await errorOf('load "raw/a 1.csv" channel post', files);
    assert.equal(code, 'unit.unsettled');
    assert.match(message, /settles the unit of post: say it with the option unit/);
  });

  it('loads nothing from a file that is not there, and reads each file once', async () => {
    assert.equal((await errorOf('load "raw/b.csv"', files)).code, 'file.missing');
    const { runs } = await valueOf('runs', 'load "raw/a 1.csv", "raw/a*.csv"', files);
    assert.equal(runs.length, 2);
  });

  it('refuses a rate, a decimal mark or a skip that can be none', async () => {
    assert.match((await errorOf('load "raw/a 1.csv" decimal ";"', files)).message, /decimal mark is/);
    assert.match((await errorOf('load "raw/a 1.csv" rate 0 Hz', files)).message, /above 0/);
  });
});

describe('channel, detrend and trim', () => {
  it('say what a run has when a channel is asked for that it has not', async () => {
    assert.match(
      (await errorOf('channel (load "raw/a 1.csv") q', files)).message,
      /a 1 has no channel q: it has x, y and z/,
    );
  });

  it('take the mean, or a line, out of every channel, and say that gravity has gone', async () => {
    const files = { 'd.csv': recordingOf({ 'z (g)': (t) => 1 + 0.01 * t + 0.1 * Math.sin(2 * Math.PI * 10 * t) }) };
    const level = await valueOf('runs', 'detrend (load "d.csv") linear', files);
    const { samples, includesStatic: steady } = signalsOf(level.runs[0])[0];
    assert.equal(steady, false);
    assert.ok(Math.abs(samples.reduce((sum, value) => sum + value, 0)) < 1e-6);
    assert.ok(Math.abs(samples[0]) < 0.01 && Math.abs(samples[samples.length - 1]) < 0.1);
  });

  it('keep the samples from the first time up to but without the second, of the run as it is given', async () => {
    const { runs } = await valueOf('runs', 'load "raw/a 1.csv" | trim 2..12 s | trim from 1 s length 3 s', files);
    const [run] = runs;
    assert.deepEqual([run.start, signalsOf(run)[0].samples.length], [3, 600]);
    assert.equal(run.untrimmed && sampleCount(run.untrimmed), 4000);
  });

  it('refuse a stretch that reaches outside, said twice, or of nothing', async () => {
    const of = async (stretch: string): Promise<string> =>
      (await errorOf(`r = load "raw/a 1.csv"\ntrim r ${stretch}`, files)).code;
    assert.equal(await of('5..25 s'), 'trim.outside');
    assert.equal(await of('from 20 s'), 'trim.outside');
    assert.equal(await of('2..5 s from 1 s'), 'trim.twice');
    assert.equal(await of('from 1 s to 3 s length 2 s'), 'trim.twice');
    assert.equal(await of('from 5 s to 3 s'), 'range.backward');
    assert.equal(await of('length 0 s'), 'value.above');
    assert.equal(await of('2.001..2.002 s'), 'trim.empty');
    assert.equal(await of(''), 'operand.missing');
  });
});

describe('check, and the faults that travel', () => {
  // A logger of 2 g that is driven into its stops in the first two seconds, and quiet afterwards.
  const clipped = recordingOf({
    'x (g)': sine(6, 0.05),
    'y (g)': sine(8, 0.05),
    'z (g)': (t) =>
      Math.max(
        -2,
        Math.min(2, 1 + (t < 2 ? 3 : 0.1) * Math.sin(2 * Math.PI * 11 * t) + 0.01 * Math.sin(2 * Math.PI * 37.3 * t)),
      ),
  });
  const files = { 'c.csv': clipped };

  it('finds clipping and puts it first', async () => {
    const { rows } = await valueOf('findings', 'check (load "c.csv")', files);
    assert.equal(rows[0].finding.code, 'clipped');
    assert.equal(rows[0].finding.severity, 'fault');
    assert.equal(rows[0].finding.channel, 'z');
  });

  it('lets the fault travel with every later result, said once', async () => {
    for (const step of ['levels', 'spectrum', 'highpass 2 Hz | spectrum']) {
      const { warnings } = await resultOf(`r = load "c.csv" channel z\nr | ${step}`, files);
      assert.equal(warnings.filter(({ code }) => code === 'fault.clipped').length, 1, step);
    }
  });

  it('leaves the fault behind with the stretch that had it', async () => {
    const { warnings } = await resultOf('load "c.csv" channel z | trim 3..18 s | levels', files);
    assert.deepEqual(
      warnings.filter(({ code }) => code.startsWith('fault.')),
      [],
    );
  });
});

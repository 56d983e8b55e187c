import { strict as assert } from 'node:assert';
import type { Question } from '../../../src/readers/checks/checked.ts';
import { sameLine as sameLineOf } from '../../../src/readers/checks/sameLine.ts';
import { seen, type NamedRun, type SetFinding } from '../../../src/readers/checks/seen.ts';
import { noise } from '../../verbs/notebook.ts';

const rate = 200;

interface Made {
  readonly seconds?: number;
  /** Amplitude and frequency of a sine. */
  readonly line?: readonly [amplitude: number, frequency: number];
  /** Natural frequency and damping ratio of what noise drives. */
  readonly resonance?: readonly [frequency: number, damping: number];
  readonly speed?: number;
}

/** A run of noise of 1 unit, with a line or a resonance. */
function run(seed: number, { seconds = 60, line = [0, 1], resonance, speed }: Made = {}): NamedRun {
  const random = noise(seed);
  const samples = new Float64Array(seconds * rate);
  const [f, zeta] = resonance ?? [0, 0];
  const pole = Math.exp((-2 * Math.PI * f * zeta) / rate);
  const turn = 2 * pole * Math.cos((2 * Math.PI * f * Math.sqrt(1 - zeta ** 2)) / rate);
  let [last, before] = [0, 0];
  for (let i = 0; i < samples.length; i++) {
    const driven = random();
    [last, before] = [driven + turn * last - pole ** 2 * before, last];
    const sine = line[0] * Math.sin(2 * Math.PI * line[1] * (i / rate) + seed);
    samples[i] = (resonance === undefined ? driven : 0.05 * last + 0.05 * random()) + sine;
  }
  return {
    label: `run-${seed}`,
    rate,
    stretches: [{ from: 0, to: samples.length, start: 0 }],
    channels: [{ name: 'z', unit: 'g', axis: true, samples }],
    speed,
  };
}

const runs = (made: (k: number) => Made, count = 4, first = 1): NamedRun[] =>
  Array.from({ length: count }, (_, k) => run(first + k, made(k)));

const sameLine = (set: readonly NamedRun[], question?: Question): SetFinding[] =>
  sameLineOf(
    set.map((one) => seen(one, question)),
    question,
  );

describe('a line in every run', () => {
  it('is told once, with its frequency and its share of the mean square', () => {
    // A sine of amplitude 0.5 has a mean square of 0.125 beside noise of 1.
    const [found, ...others] = sameLine(runs((k) => ({ line: [0.5, 50], speed: 1 + 0.1 * k })));
    assert.equal(others.length, 0);
    const { code, severity, message, value } = found.finding;
    assert.deepEqual([code, severity], ['set-line', 'note']);
    assert.ok(Math.abs(value! - 0.125 / 1.125) < 0.02, String(value));
    assert.match(message, /^A line stands at 50 Hz in all 4 runs, although their speeds differ/);
  });

  it('has its share of the band that is asked about, and is not told outside of it', () => {
    const set = runs((k) => ({ line: [0.5, 33.3], speed: 1 + 0.1 * k }));
    const [inside] = sameLine(set, { low: 25, high: 45 });
    // A fifth of the noise lies in the band.
    assert.ok(Math.abs(inside.finding.value! - 0.125 / 0.325) < 0.05, String(inside.finding.value));
    assert.match(inside.finding.message, /33\.3 Hz.*their speeds differ.*from 25 to 45 Hz/);
    assert.deepEqual(sameLine(set, { low: 40, high: 80 }), []);
  });

  it('is told to a hundredth of a Hz, wherever it stands between two bins, and once for all axes', () => {
    for (const frequency of [33.31, 33.34, 33.37, 33.4]) {
      const set = runs((k) => ({ line: [0.5, frequency], speed: 1 + 0.1 * k })).map((one) => ({
        ...one,
        channels: [
          one.channels[0],
          { ...one.channels[0], name: 'y', samples: one.channels[0].samples.map((v, i) => v + Math.sin(7e3 * i * i)) },
        ],
      }));
      const [{ finding: told }, ...others] = sameLine(set);
      assert.equal(others.length, 0);
      assert.ok(told.facts && 'frequency' in told.facts && 'channel' in told.facts);
      assert.ok(Math.abs(Number(told.facts.frequency) - frequency) < 0.01, `${told.facts.frequency} for ${frequency}`);
      // Of two axes the one of which it is the larger share.
      assert.equal(told.facts.channel, 'z');
      assert.ok(Math.abs(told.value! - 0.125 / 1.125) < 0.02, String(told.value));
    }
  });

  it('is that of the axis of which it is the larger share, whichever comes first', () => {
    const set = runs((k) => ({ line: [0.5, 50], speed: 1 + 0.1 * k })).map((one, k) => {
      const [z] = one.channels;
      const random = noise(700 + k);
      return { ...one, channels: [{ ...z, name: 'x', samples: z.samples.map((value) => value + 2 * random()) }, z] };
    });
    for (const told of [set, set.map((one) => ({ ...one, channels: [...one.channels].reverse() }))]) {
      const [{ finding: first }, ...others] = sameLine(told);
      assert.equal(others.length, 0);
      assert.ok(first.facts && 'channel' in first.facts, 'its channel is named');
      assert.equal(first.facts.channel, 'z');
    }
  });

  it('may stand a bin lower or higher in another run, where it lies between two bins', () => {
    // 8 s tell bins of 0.125 Hz; the first run's line lies nearest to 33.375 Hz, the others' to a bin beside.
    for (const other of [33.3, 33.45]) {
      const found = sameLine(runs((k) => ({ line: [0.5, k === 0 ? 33.375 : other], speed: 1 + 0.1 * k })));
      assert.equal(found.length, 1, `beside ${other} Hz`);
    }
    assert.deepEqual(sameLine(runs((k) => ({ line: [0.5, k === 0 ? 33.375 : 33.1], speed: 1 + 0.1 * k }))), []);
  });

  it('does not count where it moves with the speed, or is not in every run', () => {
    assert.deepEqual(sameLine(runs((k) => ({ line: [0.5, 30 + 2 * k] }))), []);
    assert.deepEqual(sameLine(runs((k) => ({ line: [k === 2 ? 0 : 0.5, 50] }))), []);
  });

  it('is of mains alone where the speeds tell nothing, for any other may be of what is tested', () => {
    const [alike] = sameLine(runs(() => ({ line: [0.5, 60], speed: 1.2 })));
    assert.match(alike.finding.message, /a frequency of mains; the speeds of the runs are too alike to tell/);
    const [unknown] = sameLine(runs(() => ({ line: [0.5, 50] })));
    assert.match(unknown.finding.message, /a frequency of mains; whether it follows/);
    for (const speed of [1.2, undefined])
      assert.deepEqual(sameLine(runs(() => ({ line: [0.5, 24], ...(speed === undefined ? {} : { speed }) }))), []);
  });

  it('is no resonance that noise drives, however sharp', () => {
    // Of speeds that differ, so that it is not left out for being no frequency of mains.
    for (const damping of [0.05, 0.01, 0.003, 0.001])
      assert.deepEqual(
        sameLine(runs((k) => ({ resonance: [22, damping], speed: 1 + 0.1 * k }))),
        [],
        `damping ${damping}`,
      );
  });

  it('is steady from segment to segment: by half a spread of powers, at whatever frequency', () => {
    // Of powers of 1 and r^2 in equal parts the squared coefficient of variation is ((1 - r^2) / (1 + r^2))^2.
    const told = (frequency: number, ratio: number): number =>
      sameLine(
        runs((k) => ({ line: [1, frequency], speed: 1 + 0.4 * k })).map((one) => ({
          ...one,
          channels: one.channels.map((channel) => ({
            ...channel,
            samples: channel.samples.map((value, i) =>
              i < channel.samples.length / 2
                ? value
                : value - (1 - ratio) * Math.sin(2 * Math.PI * frequency * (i / rate) + Number(one.label.slice(4))),
            ),
          })),
        })),
      ).length;
    for (const frequency of [7.3, 33.3, 81]) {
      assert.equal(told(frequency, 1), 1, `${frequency} Hz`);
      assert.equal(told(frequency, 0.5), 1, `${frequency} Hz, half as high for half of the time: 0.36`);
      assert.equal(told(frequency, 0.3), 0, `${frequency} Hz, three tenths as high: 0.7`);
    }
  });

  it('is none of noise: no false alarm in 200 sets of two runs', () => {
    let alarms = 0;
    for (let k = 0; k < 200; k++) alarms += sameLine(runs(() => ({ seconds: 10 }), 2, 1000 + 2 * k)).length;
    assert.equal(alarms, 0);
  });

  it('is not looked for in runs too short to tell one, the shortest of which counts', () => {
    const of = (...seconds: number[]): SetFinding[] =>
      sameLine(runs((k) => ({ seconds: seconds[k], line: [2, 50] }), seconds.length));
    assert.deepEqual(of(3, 3), []);
    assert.deepEqual(of(3, 60), []);
    assert.deepEqual(of(4, 60), []);
    // Of 5 s are 8 segments of 1.1 s, which half overlap.
    assert.equal(of(5, 60).length, 1);
  });

  it('is not looked for in a channel that a run lacks, nor where samples keep uneven times', () => {
    const set = runs(() => ({ line: [0.5, 50] }), 2);
    const [first, { channels, ...other }] = set;
    assert.equal(sameLine(set).length, 1);
    assert.deepEqual(sameLine([first, { ...other, channels: channels.map((one) => ({ ...one, name: 'y' })) }]), []);
    const times = Float64Array.from(channels[0].samples, (_, i) => i / rate);
    assert.deepEqual(sameLine([first, { ...other, channels, times }]), []);
  });

  it('of mains stands at a multiple of 50 or 60 Hz, to a quarter of a bin and a thousandth', () => {
    const at = (frequency: number): number => sameLine(runs(() => ({ line: [0.5, frequency] }))).length;
    // 1 / 32 Hz and 0.05 Hz are 0.08 Hz.
    assert.deepEqual([49.89, 49.94, 50.06, 50.11, 60.05, 60.12, 25, 75, 90].map(at), [0, 1, 1, 0, 1, 0, 0, 0, 0]);
    const faster = (frequency: number): number =>
      sameLine(
        runs(() => ({ line: [0.5, frequency / 2] })).map((one) => ({
          ...one,
          rate: 2 * rate,
        })),
      ).length;
    assert.deepEqual([50, 100, 120, 150, 180, 110, 25].map(faster), [1, 1, 1, 1, 1, 0, 0]);
  });

  it('would stand elsewhere by three bins and more where speeds differ, and of speeds of 0 nothing is known', () => {
    const told = (...speeds: number[]): unknown =>
      sameLine(runs((k) => ({ line: [0.5, 50], speed: speeds[k] }), 2)).map(
        ({ finding: { facts } }) => facts && 'speeds' in facts && facts.speeds,
      );
    // Three bins of 8 s are 0.375 Hz, which is 0.75 % of 50 Hz.
    assert.deepEqual([told(1, 1.006), told(1, 1.009), told(1.009, 1)], [['alike'], ['differ'], ['differ']]);
    assert.deepEqual(told(0, 1), ['unknown']);
  });

  it('is told of the first run, by its label, and is no warning', () => {
    const [{ run: index, finding: told }] = sameLine(runs(() => ({ line: [0.5, 50] }), 3, 5));
    assert.deepEqual([index, told.threshold, told.severity], [0, 0, 'note']);
    assert.ok(told.facts && 'run' in told.facts, 'its run is named');
    assert.equal(told.facts.run, 'run-5');
  });

  it('is all of what there is where nothing else moves, and no more', () => {
    const quiet = runs((k) => ({ line: [1, 50], speed: 1 + 0.1 * k })).map((one) => ({
      ...one,
      channels: one.channels.map((channel) => ({
        ...channel,
        samples: channel.samples.map((_, i) => Math.sin((2 * Math.PI * 50 * i) / rate) + 1e-6 * Math.sin(i * i)),
      })),
    }));
    const [{ finding: told }] = sameLine(quiet);
    assert.ok(told.value! > 0.999 && told.value! <= 1, String(told.value));
  });
});

import { strict as assert } from 'node:assert';
import type { NamedRun } from '../../../src/readers/checks/between.ts';
import { sameLine } from '../../../src/readers/checks/sameLine.ts';
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
    for (const damping of [0.05, 0.01, 0.003, 0.001])
      assert.deepEqual(sameLine(runs(() => ({ resonance: [22, damping] }))), [], `damping ${damping}`);
  });

  it('is none of noise: no false alarm in 200 sets of two runs', () => {
    let alarms = 0;
    for (let k = 0; k < 200; k++) alarms += sameLine(runs(() => ({ seconds: 10 }), 2, 1000 + 2 * k)).length;
    assert.equal(alarms, 0);
  });

  it('is not looked for in runs too short to tell one', () => {
    assert.deepEqual(sameLine(runs(() => ({ seconds: 3, line: [2, 50] }))), []);
  });
});

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { sampleFaults } from '../../../src/readers/checks/check.ts';
import { wrapping, mayWrap } from '../../../src/readers/checks/wrapping.ts';
import type { Finding } from '../../../src/readers/recording.ts';
import { randomOf } from '../../fuzz/mutate.ts';
import { runOf, samplesOf } from './made.ts';

const found = (samples: readonly number[], stretches?: readonly (readonly [number, number])[]): Finding | undefined =>
  wrapping(runOf({ z: samples }, { rate: 400, stretches }), {}).at(0);

/** Counts of so many bits as they are kept, whatever was measured. */
const kept =
  (bits: number) =>
  (value: number): number => {
    const all = 2 ** bits;
    return Math.round(value) - all * Math.floor((Math.round(value) + all / 2) / all);
  };
const clipped =
  (bits: number) =>
  (value: number): number =>
    Math.max(-(2 ** (bits - 1)), Math.min(2 ** (bits - 1) - 1, Math.round(value)));

/** Noise of a band up to a share of the rate, of about this r.m.s. */
function rough(count: number, rms: number, highest: number, seed: number): number[] {
  const random = randomOf(seed);
  const tones = Array.from({ length: 40 }, (_, k) => [(highest * (k + random())) / 40, 2 * Math.PI * random()]);
  const at = (i: number): number => tones.reduce((sum, [f, phase]) => sum + Math.sin(2 * Math.PI * f * i + phase), 0);
  return samplesOf(count, (i) => rms * Math.sqrt(2 / tones.length) * at(i));
}

describe('counts that overflow', () => {
  const swing = rough(4000, 12_000, 0.06, 1);
  const jumpsIn = (values: readonly number[], bits: number): number =>
    values.filter((value, i) => i > 0 && Math.abs(kept(bits)(value) - kept(bits)(values[i - 1])) > 2 ** (bits - 1))
      .length;

  it('are found in a long recording whose large steps come first, whatever its stretches', () => {
    const turns = Array.from({ length: 40 }, () => swing.map(kept(16))).flat();
    const jumps = jumpsIn(turns, 16);
    // Large steps, but not too many beside the jumps that come behind them.
    const large = Math.floor(0.08 * jumps) >> 1;
    const quiet = Array.from({ length: 150_000 }, (_, i) => (i % 300 === 150 && i < 300 * large ? 30_000 : i % 7));
    const ofAll = found([...quiet, ...turns]);
    assert.equal((ofAll?.facts as { jumps: number } | undefined)?.jumps, jumps);
    const [cut, end] = [quiet.length + 5, quiet.length + turns.length];
    const stretches = [
      [0, 70_001],
      [70_001, cut],
      [cut, cut + 1],
      [cut + 1, end],
    ] as const;
    const inParts = found([...quiet, ...turns], stretches);
    const between = [cut - 1, cut].filter((at) => jumpsIn([...quiet, ...turns].slice(at, at + 2), 16) > 0).length;
    assert.equal((inParts?.facts as { jumps: number } | undefined)?.jumps, jumps - between);
  });

  it('are a fault, with how often and between which ends, and where', () => {
    const fault = found(swing.map(kept(16)));
    assert.deepEqual([fault?.code, fault?.severity, fault?.channel], ['wrapped', 'fault', 'z']);
    const jumps = jumpsIn(swing, 16);
    assert.equal((fault?.facts as { jumps: number }).jumps, jumps);
    assert.match(
      fault?.message ?? '',
      new RegExp(
        `^z jumps ${jumps} times between the ends of its range \\(-32500 to 32447 g\\) from one sample to the next and goes on from there, as counts do that overflow, `,
      ),
    );
    const first = swing.findIndex((value) => Math.abs(value) > 32_767.5);
    assert.deepEqual(fault?.spans?.[0], { from: (first - 1) / 400, to: (first - 1) / 400 + 2 / 400 });
    assert.equal(fault?.spans?.length, jumps);
    const run = runOf({ z: swing.map(kept(16)) }, { channel: { unit: undefined } });
    assert.ok(
      sampleFaults(run).some(({ code }) => code === 'wrapped'),
      'it is told of whatever is loaded',
    );
  });

  it('are found in units, in few digits, of other bits, without a sign and across gaps', () => {
    const counts = swing.map(kept(16));
    const codes = (samples: readonly number[], cuts?: readonly (readonly [number, number])[]): string | undefined =>
      found(samples, cuts)?.code;
    assert.equal(codes(counts.map((one) => one / 16_384)), 'wrapped');
    assert.equal(codes(counts.map((one) => Number((one / 16_384).toFixed(4)))), 'wrapped');
    assert.equal(codes(counts.map((one) => one + 32_768)), 'wrapped');
    assert.equal(codes(rough(4000, 50, 0.06, 2).map(kept(8))), 'wrapped');
    assert.equal(
      codes(counts, [
        [0, 1000],
        [1000, 4000],
      ]),
      'wrapped',
    );
    // A record with gravity on it, in ±2 g.
    assert.equal(codes(rough(4000, 9000, 0.06, 3).map((one) => kept(16)(one + 16_384))), 'wrapped');
  });

  it('are found where they overflow for a sample or two at each peak of a tone', () => {
    for (const frequency of [0.013, 0.05, 0.09])
      for (const over of [1.02, 1.1, 1.4]) {
        const tone = samplesOf(4000, (i) => over * 32_768 * Math.sin(2 * Math.PI * frequency * i + 1));
        assert.equal(found(tone.map(kept(16)))?.code, 'wrapped', `${frequency} of the rate, ${over} of the range`);
      }
  });

  it('are none where fewer than six jumps, or jumps one way alone, may be something else', () => {
    const few = swing.map((value, i) => (i < 400 ? 32_767 * Math.sign(value) : 0.3 * value)).map(kept(16));
    assert.equal(found(few), undefined);
    assert.equal(found(samplesOf(4000, (i) => kept(16)(1000 * i))), undefined);
    assert.equal(found(samplesOf(4000, () => 3)), undefined);
    assert.equal(found([1, 2]), undefined);
  });

  it('are none where the ends are those of no converter', () => {
    const angle = swing.map((value) => Math.abs(kept(16)(value)) ** 0.5 * Math.sign(kept(16)(value)));
    assert.equal(found(angle.map((one) => 3 * (one + 100) + 0.1 * Math.sin(one))), undefined);
  });
});

describe('signals that reach both ends of their range without overflowing', () => {
  const full = 32_767;
  const of = (value: (i: number) => number): number[] => samplesOf(8000, (i) => clipped(16)(value(i)));
  const random = randomOf(7);
  const white = samplesOf(8000, () => random() + random() + random() + random() - 2);
  const square = (period: number) => (i: number) => (i % period < period / 2 ? full : -full);
  /** A square wave of the harmonics that the rate holds, with edges between samples or on them. */
  const limited = (period: number, at: number) => (i: number) => {
    let sum = 0;
    for (let k = 1; k < period / 2; k += 2) sum += Math.sin((2 * Math.PI * k * (i + at)) / period) / k;
    return 0.84 * full * (4 / Math.PI) * sum;
  };
  const signals: Readonly<Record<string, readonly number[]>> = {
    'a tone': of((i) => full * Math.sin(0.3 * i)),
    'a tone near half the rate': of((i) => full * Math.sin(2 * Math.PI * 0.45 * i)),
    'a tone at half the rate': of((i) => (i % 2 === 0 ? full : -full)),
    'a square wave': of(square(40)),
    'a square wave with noise on it': of((i) => 0.9 * square(40)(i) + 800 * white[i]),
    'a square wave of few samples': of(square(6)),
    'a square wave that is limited to half the rate': of(limited(40, 0.5)),
    'such a wave with noise on it': of((i) => limited(40, 0.5)(i) + 400 * white[i]),
    'such a wave with edges on samples': of(limited(40, 0)),
    'such a wave of no whole period': of(limited(37.3, 0.2)),
    noise: of((i) => 0.5 * full * white[i]),
    'clipped noise': of((i) => 3 * full * white[i]),
    'very much clipped noise': of((i) => 50 * full * white[i]),
    'a clipped tone': of((i) => 5 * full * Math.sin(0.3 * i)),
    'a clipped tone of few samples a period': of((i) => 20 * full * Math.sin(1.7 * i)),
    'short pulses both ways': of((i) => (i % 50 === 7 ? full : i % 50 === 8 ? -full : 300 * white[i])),
    'pulses that ring': of((i) => full * Math.exp(-(i % 80) / 6) * Math.cos(2.6 * (i % 80))),
    'a sawtooth': of((i) => full * (((i / 37) % 2) - 1)),
  };
  for (const [name, samples] of Object.entries(signals))
    it(`as ${name} does, are told nothing of`, () => assert.equal(found(samples)?.message, undefined));

  it('as tones and noise in any mixture do, are told nothing of', () => {
    const law = fc.property(
      fc.double({ min: 0.001, max: 0.5, noNaN: true }),
      fc.double({ min: 0.2, max: 30, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (frequency, gain, noise) => {
        const samples = samplesOf(2000, (i) =>
          clipped(16)(gain * full * ((1 - noise) * Math.sin(2 * Math.PI * frequency * i) + noise * white[i])),
        );
        assert.equal(found(samples)?.message, undefined);
      },
    );
    fc.assert(law, { numRuns: 300 });
  });

  it('are cleared at once where they never jump by so much', () => {
    assert.equal(mayWrap(runOf({ z: signals['a tone'] }).channels[0]), false);
    assert.equal(mayWrap(runOf({ z: signals['a square wave'] }).channels[0]), true);
  });
});

import { strict as assert } from 'node:assert';
import { oddPulse, pulseTimes, smoothedPulses } from '../../src/signal/tachometer.ts';
import { noise } from '../verbs/notebook.ts';

const rate = 1000;
const of = (seconds: number, value: (t: number) => number): Float64Array =>
  Float64Array.from({ length: seconds * rate }, (_, i) => value(i / rate));
const close = (found: ArrayLike<number>, wanted: (k: number) => number, within: number): void => {
  for (let k = 0; k < found.length; k++)
    assert.ok(Math.abs(found[k] - wanted(k)) <= within, `${k}: ${found[k]}, not ${wanted(k)}`);
};

describe('pulses of a tachometer', () => {
  it('rise through the middle of the range, between two samples, whatever the signal is like', () => {
    const random = noise(4);
    // A sine of 7.3 Hz rises through 0 at k / 7.3.
    const sine = pulseTimes(
      of(3, (t) => 2 + Math.sin(2 * Math.PI * 7.3 * t)),
      rate,
    );
    assert.equal(sine.length, 21);
    close(sine, (k) => (k + 1) / 7.3, 2e-5);
    const narrow = pulseTimes(
      of(3, (t) => ((t * 7.3) % 1 < 0.02 ? 5 : 0) + 0.05 * random()),
      rate,
    );
    assert.equal(narrow.length, 21);
    close(narrow, (k) => (k + 1) / 7.3, 1e-3);
    // Without hysteresis the noise would pulse at each edge several times.
    const noisy = pulseTimes(
      of(3, (t) => Math.sin(2 * Math.PI * 7.3 * t) + 0.05 * random()),
      rate,
    );
    assert.equal(noisy.length, 21);
    assert.equal(pulseTimes(new Float64Array(50).fill(3), rate).length, 0);
  });

  it('are odd where one is missing or counted twice, and not where the speed changes', () => {
    const even = Float64Array.from({ length: 40 }, (_, k) => 0.1 * k);
    assert.equal(oddPulse(even), undefined);
    assert.equal(oddPulse(even.filter((_, k) => k !== 17)), 17);
    assert.equal(oddPulse(Float64Array.from([...even, 1.73]).sort()), 18);
    // From 10 to 30 turns a second within 4 seconds.
    const faster = Float64Array.from({ length: 79 }, (_, k) => (Math.sqrt(100 + 10 * k) - 10) / 5);
    assert.equal(oddPulse(faster), undefined);
    assert.equal(oddPulse(new Float64Array(0)), undefined);
  });

  it('are smoothed over half a second on either side, counted in usual distances, and over two pulses at least', () => {
    /** How many pulses on either side of one that is moved are moved along. */
    const reachOf = (distance: number, count = 100): number => {
      const even = Float64Array.from({ length: count }, (_, k) => 7 + distance * k);
      const moved = even.map((t, k) => (k === count >> 1 ? t + 0.2 * distance : t));
      const [smooth, after] = [smoothedPulses(even), smoothedPulses(moved)];
      const changed = [...after.keys()].filter((k) => Math.abs(after[k] - smooth[k]) > 1e-9 * distance);
      return Math.max(...changed) - (count >> 1);
    };
    // 0.5 s are 5.48, 5.52 and 5.6 distances, and 1.2 of the longest.
    assert.deepEqual(
      [0.5 / 5.48, 0.5 / 5.52, 0.5 / 5.6, 0.4].map((distance) => reachOf(distance)),
      [5, 6, 6, 2],
    );
  });

  it('are smoothed to a third of what the sampling leaves, and a steady change of speed stays', () => {
    const faster = Float64Array.from({ length: 200 }, (_, k) => (Math.sqrt(400 + 4 * k) - 20) / 2);
    const smooth = smoothedPulses(faster);
    close(smooth, (k) => faster[k], 6e-4);
    close(smooth.subarray(20, -20), (k) => faster[k + 20], 2e-5);
    const coarse = faster.map((t) => Math.ceil(t * rate - 0.5) / rate);
    const size = (times: Float64Array): number =>
      Math.hypot(...times.subarray(20, -20).map((t, k) => t - faster[k + 20]));
    assert.ok(size(smoothedPulses(coarse)) < size(coarse) / 3);
    assert.throws(() => smoothedPulses(faster.subarray(0, 4)), /4 pulses/);
  });
});

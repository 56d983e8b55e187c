import { strict as assert } from 'node:assert';
import { aliasing } from '../../../src/readers/checks/aliasing.ts';
import { band } from '../../../src/readers/checks/band.ts';
import { drift } from '../../../src/readers/checks/drift.ts';
import { deliveryFinding, resetFinding, stoppedFinding } from '../../../src/readers/checks/duplicates.ts';
import { jitterFinding } from '../../../src/readers/checks/jitter.ts';
import { length } from '../../../src/readers/checks/length.ts';
import { rateFinding, uncertainRate } from '../../../src/readers/checks/rate.ts';
import { resolution } from '../../../src/readers/checks/resolution.ts';
import type { StampClock } from '../../../src/readers/clock/clock.ts';
import type { Clock, Finding } from '../../../src/readers/recording.ts';
import { runOf, samplesOf } from './made.ts';

const brief = (found: Finding | undefined): string =>
  found === undefined ? 'nothing' : `${found.code} ${found.severity} ${found.threshold ?? ''}`.trim();
const all = (found: readonly Finding[]): string => found.map(brief).join(', ') || 'nothing';

const clock = (change: Partial<StampClock> = {}): StampClock => ({
  rate: 100,
  stretches: [
    { from: 0, to: 500, start: 0 },
    { from: 500, to: 1000, start: 6 },
  ],
  jitter: 0,
  times: undefined,
  quantum: 0.001,
  delivery: 'even',
  missing: 0,
  repeated: 0,
  backward: 0,
  resets: 0,
  held: { rows: 0, first: -1 },
  hidesLosses: false,
  each: undefined,
  least: 0,
  leastLost: undefined,
  span: 10,
  ...change,
});

describe('findings of a clock', () => {
  it('tell how stamps were delivered, and how many are out of order', () => {
    const delivery = (change: Partial<StampClock>): Finding | undefined => deliveryFinding(clock(change), false);
    assert.equal(brief(delivery({})), 'nothing');
    assert.equal(brief(delivery({ backward: 1 })), 'stamps-out-of-order note');
    assert.equal(delivery({ backward: 1, repeated: 2 })?.value, 3);
    assert.equal(brief(delivery({ delivery: 'bursts', repeated: 40 })), 'bursts warning');
    assert.equal(delivery({ delivery: 'bursts', repeated: 40, backward: 3 })?.value, 43);
    assert.equal(brief(delivery({ delivery: 'coarse' })), 'coarse-stamps note');
    assert.equal(brief(delivery({ delivery: 'rounded' })), 'rounded-stamps note');
    assert.equal(delivery({ delivery: 'rounded', quantum: 0.004 })?.value, 0.004);
  });

  it('tell a clock that was set anew, or stood still, with the line', () => {
    const line = (row: number): number => row + 2;
    const { rate, stretches, jitter, times } = clock();
    const own: Clock = { rate, stretches, jitter, times, rateFrom: 'stamps', epoch: 0 };
    assert.equal(resetFinding(own, clock(), line), undefined);
    const reset = resetFinding(own, clock({ resets: 2 }), line);
    assert.equal(brief(reset), 'clock-reset warning');
    assert.equal(reset?.value, 2);
    assert.match(reset?.message ?? '', /line 502/);
    assert.equal(stoppedFinding(clock(), line), undefined);
    const stopped = stoppedFinding(clock({ held: { rows: 30, first: 70 } }), line);
    assert.equal(brief(stopped), 'clock-stopped fault');
    assert.equal(stopped?.value, 30);
    assert.match(stopped?.message ?? '', /line 72/);
  });

  it('tell unevenness from a hundredth on, by what is made of it', () => {
    const uneven = (jitter: number): string => brief(jitterFinding(clock({ jitter })));
    assert.deepEqual([0.01, 0.011, 0.05, 0.051, 0.25, 0.251].map(uneven), [
      'nothing',
      'uneven note 0.01',
      'uneven note 0.01',
      'uneven warning 0.05',
      'uneven warning 0.05',
      'uneven fault 0.25',
    ]);
    assert.equal(jitterFinding(clock({ jitter: 0.1 }))?.value, 0.1);
  });

  it('tell a rate that is not the stated one, from half a per cent on', () => {
    const differs = (measured: number): Finding | undefined =>
      rateFinding(measured, { rate: 1000, name: 'the header' });
    assert.deepEqual(
      [1004.9, 995.1, 1005.1, 994.9, 1049, 1051, 949].map((rate) => brief(differs(rate))),
      [
        'nothing',
        'nothing',
        'rate-differs note 0.005',
        'rate-differs note 0.005',
        'rate-differs note 0.005',
        'rate-differs warning 0.05',
        'rate-differs warning 0.05',
      ],
    );
    assert.ok(Math.abs(differs(1100)!.value! - 0.1) < 1e-12);
    assert.match(differs(1100)!.message, /the header/);
  });

  it('tell a rate that losses may hide behind', () => {
    const unsure = (change: Partial<StampClock>): Finding | undefined => uncertainRate(clock(change));
    // A thousandth, and two steps of the stamps over the whole length.
    assert.equal(brief(unsure({ least: 100.11 })), 'nothing');
    assert.equal(brief(unsure({ least: 100.13 })), 'rate-uncertain warning 0.0012000000000000001');
    assert.equal(brief(unsure({ hidesLosses: true }))?.split(' ')[0], 'rate-uncertain');
    assert.ok(Math.abs(unsure({ least: 101 })!.value! - 0.01) < 1e-12);
    assert.match(unsure({ least: 101 })!.message, /101 Hz/);
    assert.match(unsure({ hidesLosses: true, leastLost: 7, missing: 9 })!.message, / lost \(7 to 9 samples\), but/);
    assert.match(unsure({ hidesLosses: true, leastLost: 1, missing: 0 })!.message, / lost \(1 sample at least\), but/);
    assert.doesNotMatch(unsure({ hidesLosses: true, leastLost: 0, missing: 9 })!.message, /\d samples/);
    assert.ok(!/99/.test(unsure({ hidesLosses: true, least: 99 })!.message));
  });
});

describe('figures of a recording beside what is asked of it', () => {
  it('a band is sure up to 0.4 of the rate, and holds nothing past half of it', () => {
    const to = (high: number | undefined): string => all(band(runOf({ x: [0, 1] }, { rate: 100 }), { high }));
    assert.deepEqual([undefined, 40, 40.1, 50, 50.1].map(to), [
      'nothing',
      'nothing',
      'band-high warning 0.4',
      'band-high warning 0.4',
      'band-high fault 0.5',
    ]);
    assert.equal(band(runOf({ x: [0, 1] }, { rate: 100 }), { high: 45 })[0].value, 0.45);
  });

  it('sixteen segments of two seconds, half over each other, are enough', () => {
    const run = (count: number, stretches?: readonly (readonly [number, number])[]): ReturnType<typeof runOf> =>
      runOf({ x: samplesOf(count, Math.sin) }, { stretches });
    // Segments of 20 samples, 10 apart: the sixteenth ends at 170.
    assert.equal(all(length(run(170), {})), 'nothing');
    assert.equal(all(length(run(169), {})), 'short warning 16');
    assert.equal(length(run(169), {})[0].value, 15);
    assert.equal(
      length(
        run(170, [
          [0, 85],
          [85, 170],
        ]),
        {},
      )[0].value,
      14,
    );
    assert.equal(all(length(run(85), { segment: 1 })), 'nothing');
    assert.equal(length(run(84), { segment: 1 })[0].value, 15);
    assert.equal(length(run(1), { segment: 0.01 })[0].value, 0);
  });

  it('a segment holds four periods of the lowest frequency', () => {
    const from = (low: number, segment?: number): string =>
      all(length(runOf({ x: samplesOf(1000, Math.sin) }), { low, segment }));
    assert.equal(from(2), 'nothing');
    assert.equal(from(1.99), 'segment-short warning 4');
    assert.equal(from(1.99, 3), 'nothing');
    assert.equal(from(0), 'nothing');
    assert.equal(length(runOf({ x: samplesOf(1000, Math.sin) }), { low: 1 })[0].value, 2);
  });

  it('a converter is fine enough for ten of its steps in the rms, and too coarse below three', () => {
    // Plus and minus so many steps of 0.01 and one step beside, so that the step shows.
    const moves = (steps: number): number[] =>
      samplesOf(1000, (i) => 0.01 * (i === 500 ? steps - 1 : i % 2 === 0 ? steps : -steps));
    const of = (steps: number): string => all(resolution(runOf({ x: moves(steps) }), {}));
    assert.equal(of(11), 'nothing');
    assert.equal(of(9), 'resolution warning 10');
    assert.equal(of(4), 'resolution warning 10');
    assert.equal(of(2), 'resolution fault 3');
    const [finding] = resolution(runOf({ x: moves(4) }), {});
    assert.ok(Math.abs(finding.value! - 4) < 0.01);
    assert.equal(finding.channel, 'x');
    assert.match(finding.message, /only 4 steps of the converter \(0\.01 g\).*0\.00000167 g²\/Hz/);
    assert.equal(all(resolution(runOf({ x: samplesOf(50, () => 1) }), {})), 'nothing');
  });

  it('an axis that leaves its place by more than 0.05 g drifts, where that is more than chance', () => {
    const leaves = (total: number, seconds = 10): number[] =>
      samplesOf(10 * seconds, (i) => (total * Math.floor(i / 10)) / (seconds - 1) + 0.001 * Math.sin(3 * i));
    const of = (values: number[]): string => all(drift(runOf({ x: values }), {}));
    assert.equal(of(leaves(0.049)), 'nothing');
    assert.equal(of(leaves(0.051)), 'drift warning 0.05');
    assert.equal(of(leaves(-0.051)), 'drift warning 0.05');
    assert.equal(of(leaves(0.3, 5)), 'nothing');
    assert.equal(of(leaves(0.3, 6)), 'drift warning 0.05');
    const [finding] = drift(runOf({ x: leaves(0.2) }), {});
    assert.ok(Math.abs(finding.value! - 0.2) < 1e-3);
    assert.equal(finding.channel, 'x');
    const metric = drift(runOf({ x: leaves(0.2 * 9.80665) }, { channel: { unit: 'm/s^2' } }), {});
    assert.ok(Math.abs(metric[0].value! - 0.2) < 1e-3);
    assert.equal(all(drift(runOf({ x: leaves(5) }, { channel: { unit: 'V' } }), {})), 'nothing');
    // Means that wander far more than the line rises.
    assert.equal(
      of(samplesOf(100, (i) => 0.006 * Math.floor(i / 10) + 0.2 * Math.sin(2 * Math.floor(i / 10)))),
      'nothing',
    );
  });

  it('the means of a drift are of whole seconds and go across no gap', () => {
    const steps = samplesOf(65, (i) => (i < 35 ? 0 : 1));
    // Three seconds before the gap and three behind it.
    assert.equal(
      all(
        drift(
          runOf(
            { x: steps },
            {
              stretches: [
                [0, 35],
                [35, 65],
              ],
            },
          ),
          {},
        ),
      ),
      'nothing',
    );
    const seconds = samplesOf(70, (i) => 0.1 * Math.floor(i / 10));
    assert.ok(Math.abs(drift(runOf({ x: seconds }), {})[0].value! - 0.6) < 1e-12);
  });

  it('more than a tenth of the mean square between 0.4 and half of the rate may be folded in', () => {
    const rate = 64;
    const tones = (high: number): number[] =>
      samplesOf(
        rate * 20,
        (i) => Math.sin((2 * Math.PI * 8 * i) / rate) + high * Math.sin((2 * Math.PI * 29 * i) / rate),
      );
    const of = (high: number, made = {}): Finding[] => aliasing(runOf({ x: tones(high) }, { rate, ...made }), {});
    assert.equal(all(of(0.3)), 'nothing');
    assert.equal(all(of(0.36)), 'aliasing warning 0.1');
    assert.ok(Math.abs(of(0.5)[0].value! - 0.2) < 1e-3);
    // Half a second is the shortest that is looked at, here.
    assert.equal(
      all(
        of(0.5, {
          stretches: [
            [0, 31],
            [31, 62],
          ],
        }),
      ),
      'nothing',
    );
    assert.equal(
      all(
        of(0.5, {
          stretches: [
            [0, 31],
            [31, 63],
          ],
        }),
      ),
      'aliasing warning 0.1',
    );
    assert.match(of(0.5)[0].message, /25\.6 Hz/);
    // What stands still is no vibration.
    assert.ok(
      Math.abs(aliasing(runOf({ x: tones(0.5).map((value) => value + 7) }, { rate }), {})[0].value! - 0.2) < 2e-2,
    );
  });
});

import { strict as assert } from 'node:assert';
import { blocksOf, lineThrough, stationarity } from '../../../src/readers/checks/stationarity.ts';
import type { Finding } from '../../../src/readers/recording.ts';
import { runOf, samplesOf } from './made.ts';

/** Blocks of 5 s at 4 Hz, each of one level: plus and minus it in turn. */
const blocks = (levels: readonly number[]): number[] =>
  levels.flatMap((level) => samplesOf(20, (i) => (i % 2 === 0 ? level : -level)));
const found = (levels: readonly number[]): Finding[] => stationarity(runOf({ x: blocks(levels) }, { rate: 4 }), {});
const told = (levels: readonly number[]): string[] => found(levels).map(({ code }) => code);

describe('blocks of a recording', () => {
  it('have the mean square of all axes less their means, and none goes across a gap', () => {
    const run = runOf(
      { x: [1, 3, 1, 3, 1, 3, 1, 3, 1, 3], y: [0, 4, 0, 4, 0, 4, 0, 4, 0, 4] },
      {
        rate: 2,
        stretches: [
          [0, 5],
          [5, 10],
        ],
      },
    );
    assert.deepEqual(blocksOf(run, 1), [
      { from: 0, to: 2, power: 5 },
      { from: 2, to: 4, power: 5 },
      { from: 5, to: 7, power: 5 },
      { from: 7, to: 9, power: 5 },
    ]);
    assert.deepEqual(
      blocksOf(run, 2.5).map(({ from, to }) => [from, to]),
      [
        [0, 5],
        [5, 10],
      ],
    );
    // At least one sample each.
    assert.equal(blocksOf(run, 0.1).length, 10);
  });
});

describe('a line through evenly spaced values', () => {
  it('has the slope of least squares, and that over its standard error', () => {
    const { slope, t } = lineThrough([1, 2, 4, 3, 5]);
    assert.ok(Math.abs(slope - 0.9) < 1e-12);
    // Residuals 0.2, -0.7, 0.4... of 1.9 in all over three degrees of freedom.
    assert.ok(Math.abs(t - 0.9 / Math.sqrt(1.9 / 3 / 10)) < 1e-9, String(t));
    assert.equal(lineThrough([2, 2, 3, 3]).slope, 0.4);
    assert.equal(lineThrough([0, 1, 2, 3]).t, Infinity);
  });
});

describe('whether the vibration is much the same throughout', () => {
  it('is asked of three blocks and more', () => {
    assert.deepEqual(told([1, 5]), []);
    assert.deepEqual(told([1, 1, 5]), ['one-event']);
  });

  it('one block with more than a quarter of all, and twice its share, is an event', () => {
    assert.deepEqual(told([1, 1, 1, 1, 1, 1, 1, 1, 1, 1]), []);
    const [event] = found([1, 1, 1, 1, 2, 1, 1, 1, 1, 1]);
    assert.equal(event.code, 'one-event');
    assert.equal(event.value, 4 / 13);
    assert.equal(event.threshold, 0.25);
    assert.deepEqual(event.spans, [{ from: 20, to: 25 }]);
    // Of three, 0.4 is more than a quarter and still no more than twice a fair share.
    assert.deepEqual(told([1, 1, Math.sqrt(3)]), []);
  });

  it('the loudest over the quietest by more than four in mean square is a change of level', () => {
    const levels = (loud: number): number[] => [...Array<number>(10).fill(1), ...Array<number>(10).fill(loud)];
    assert.ok(!told(levels(1.99)).includes('not-stationary'));
    const change = found(levels(2.02)).find(({ code }) => code === 'not-stationary')!;
    assert.ok(Math.abs(change.value! - 2.02 ** 2) < 1e-9);
    assert.equal(change.threshold, 4);
    assert.deepEqual(change.spans, [{ from: 50, to: 55 }]);
    const still = found([...Array<number>(10).fill(0), ...Array<number>(10).fill(1)]);
    assert.equal(still[0].code, 'not-stationary');
    assert.equal(still[0].value, undefined);
  });

  it('a steady rise of more than a fifth is a trend, from six blocks on', () => {
    const rising = (total: number, count = 12): number[] =>
      samplesOf(count, (k) => Math.exp((Math.log(1 + total) * k) / (count - 1)) * (1 + (k % 2 === 0 ? 0.002 : -0.002)));
    assert.deepEqual(told(rising(0.19)), []);
    assert.deepEqual(told(rising(0.21)), ['trend']);
    assert.deepEqual(told(rising(-0.21)), ['trend']);
    assert.deepEqual(told(rising(0.5, 5)), []);
    assert.deepEqual(told(rising(0.5, 6)), ['trend']);
    const [trend] = found(rising(0.3));
    assert.ok(Math.abs(trend.value! - 0.3) < 0.01);
    assert.equal(trend.threshold, 0.2);
  });

  it('a rise that is lost in what the blocks differ anyway is none', () => {
    assert.deepEqual(told([1, 1.6, 0.9, 1.7, 1, 1.7, 1.1, 1.8]), []);
  });

  it('a block of nothing hides any trend', () => {
    const levels = samplesOf(12, (k) => Math.exp(0.05 * k));
    assert.ok(told(levels).includes('trend'));
    levels[0] = 0;
    assert.deepEqual(told(levels), ['not-stationary']);
  });
});

import { strict as assert } from 'node:assert';
import {
  isEpoch,
  isInDoubt,
  otherScale,
  possibleScales,
  scaleName,
  spreadsheetEpoch,
  styleOf,
} from '../../../src/readers/clock/scale.ts';

const possible = (
  first: number,
  step: number,
  span: number,
  isInteger = true,
  rate?: number,
  byName = false,
): string[] =>
  possibleScales(first, step, span, isInteger, rate, byName).map(({ scale, style }) => `${style} ${scale}`);

describe('the unit of a time without one', () => {
  it('is named by its size', () => {
    assert.deepEqual([1, 1e-3, 1e-6, 1e-9, 60, 7].map(scaleName), ['s', 'ms', 'us', 'ns', 'min', '7 s']);
  });

  it('counts from 1970 where that is a date from 2000 to 2100', () => {
    const [first, last] = [Date.UTC(2000, 0) / 1000, Date.UTC(2100, 0) / 1000];
    assert.deepEqual([first, first + 1, last - 1, last].map(isEpoch), [false, true, true, false]);
    assert.equal(styleOf(1, 1_714_557_600), 'epoch s');
    assert.equal(styleOf(1e-3, 1_714_557_600_000), 'epoch ms');
    assert.equal(styleOf(1e-3, 1_714_557_600), 'ms');
  });

  it('counts a spreadsheet’s days from the 30th of December 1899', () => {
    assert.equal(spreadsheetEpoch, Date.UTC(1899, 11, 30) / 1000);
  });

  it('gives a rate at which vibration is sampled', () => {
    assert.deepEqual(possible(0, 5, 1000), ['ms 0.001']);
    assert.deepEqual(possible(0, 2, 400), ['s 1', 'ms 0.001'].slice(0, 2));
    assert.deepEqual(possible(0, 100, 100_000), ['ms 0.001', 'us 0.000001']);
    assert.deepEqual(possible(0, 1e7, 1e9, false), ['ns 1e-9']);
    // Half a Hz and 20 kHz are the slowest and the fastest.
    assert.deepEqual(possible(0, 2001, 1e5), ['us 0.000001']);
    assert.deepEqual(possible(0, 49, 1e4), ['ms 0.001']);
    assert.deepEqual(possible(0, 50, 1e4), ['ms 0.001', 'us 0.000001']);
  });

  it('is that of a date of this century where one gives such', () => {
    assert.deepEqual(possible(1_714_557_600_000, 100, 1e6), ['epoch ms 0.001']);
    assert.deepEqual(possible(45_000.5, 1e-7, 1, false), ['days 86400']);
    assert.deepEqual(possible(30_000, 1e-7, 1, false), []);
    assert.deepEqual(possible(60_000, 1e-7, 1, false), []);
    assert.deepEqual(possible(45_000, 1e-7, 1, true), []);
  });

  it('passes over recordings of more than three days where another is shorter', () => {
    assert.deepEqual(possible(0, 100, 3 * 86_400_000), ['ms 0.001', 'us 0.000001']);
    assert.deepEqual(possible(0, 100, 3 * 86_400_000 + 1), ['us 0.000001']);
    assert.deepEqual(possible(0, 5, 1e12), ['ms 0.001']);
  });

  it('is a part of a day where nothing else would do', () => {
    const step = 1 / 86_400 / 100;
    assert.deepEqual(possible(0.4, step, 0.1, false), ['part of a day 86400']);
    assert.deepEqual(possible(0, step, 0.1, false), ['part of a day 86400']);
    assert.deepEqual(possible(2, step, 0.1, false), ['part of a day 86400']);
    assert.deepEqual(possible(-0.1, step, 0.1, false), []);
    assert.deepEqual(possible(2.1, step, 0.1, false), []);
    assert.deepEqual(possible(0.4, step, 0.1, true), []);
    assert.deepEqual(possible(0.4, 1e-13, 0.1, false), []);
    assert.deepEqual(possible(0.4, step, 0.1, false, 100), ['part of a day 86400']);
    assert.deepEqual(possible(0.4, step, 0.1, false, 250), ['part of a day 86400']);
    assert.deepEqual(possible(0.4, step, 0.1, false, 301), []);
    assert.deepEqual(possible(0.4, step, 0.1, false, 33), []);
  });

  it('is the one that comes nearest to a stated rate, within three times of it', () => {
    assert.deepEqual(possible(0, 5, 1000, true, 200), ['ms 0.001']);
    assert.deepEqual(possible(0, 5, 1000, true, 590), ['ms 0.001']);
    assert.deepEqual(possible(0, 5, 1000, true, 610), []);
    assert.deepEqual(possible(0, 5, 1000, true, 70), ['ms 0.001']);
    assert.deepEqual(possible(0, 5, 1000, true, 66), []);
    assert.deepEqual(possible(0, 5, 1000, true, 200_000), ['us 0.000001']);
    assert.deepEqual(possible(0, 5, 1000, true, 0.2), ['s 1']);
  });

  it('might instead be the other one whose rate is the likelier', () => {
    // Rates around 100 Hz are the likeliest.
    assert.equal(otherScale(5, 1e-3), 1);
    assert.equal(otherScale(50, 1e-3), 1e-6);
    assert.equal(otherScale(5000, 1e-3), 1e-6);
    assert.equal(otherScale(5000, 1e-6), 1e-3);
    assert.equal(otherScale(5e6, 1e-9), 1e-6);
    assert.equal(otherScale(1 / 6000, 1), 60);
    assert.equal(otherScale(1 / 360_000, 3600), 86_400);
  });

  it('may be minutes, hours or days of a column that is named a time, where seconds would be too fast', () => {
    const named = (first: number, step: number, span: number, rate?: number): string[] =>
      possible(first, step, span, false, rate, true);
    assert.deepEqual(named(0, 1 / 360_000, 0.1), ['h 3600']);
    assert.deepEqual(named(0, 1 / 8_640_000, 0.01), ['part of a day 86400']);
    // A converter of 40 kHz in seconds, or a logger of 667 Hz in minutes.
    assert.deepEqual(named(0, 1 / 40_000, 4), ['s 1', 'min 60']);
    assert.deepEqual(possible(0, 1 / 40_000, 4, false), []);
    assert.deepEqual(named(0, 1 / 6000, 1), ['s 1']);
    assert.deepEqual(named(0, 1 / 6000, 1, 100), ['min 60']);
    assert.deepEqual(named(0.4375, 1 / 360_000, 0.01), ['part of a day 86400']);
  });

  it('is in doubt of a few fast seconds at no usual rate, of all that is shorter, and of what is longer and begins at nothing', () => {
    assert.ok(isInDoubt(0, 1 / 6000, 1, 1));
    assert.ok(!isInDoubt(0, 1 / 6000, 60, 1));
    assert.ok(!isInDoubt(0, 1 / 900, 1, 1));
    for (const usual of [2000, 2048, 2500, 3200, 5000, 6400, 8192, 12_800, 16_384])
      assert.ok(!isInDoubt(0, 1 / usual, 1, 1), `${usual} Hz`);
    assert.ok(isInDoubt(0, 5, 1000, 1e-3));
    assert.ok(isInDoubt(0, 1 / 360_000, 0.1, 3600));
    assert.ok(!isInDoubt(0.4375, 1 / 8_640_000, 0.01, 86_400));
  });
});

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import {
  studentTInterval,
  studentTSurvival,
  studentTTwoSided,
} from '../../../src/statistics/distributions/studentT.ts';
import { close } from '../../published/vectors.ts';
import { degrees, probability } from './arbitraries.ts';

const variate = fc.double({ min: -30, max: 30, noNaN: true });

describe("Student's t", () => {
  it('is symmetric: the tails of t and -t add up to 1, and both outer ones are the two-sided p', () => {
    fc.assert(
      fc.property(variate, degrees, (t, df) => {
        close(studentTSurvival(t, df) + studentTSurvival(-t, df), 1, 1e-14);
        close(studentTTwoSided(t, df), 2 * studentTSurvival(Math.abs(t), df), 1e-14);
      }),
    );
  });

  it('with 1 degree of freedom is that of Cauchy, and with 2 has a closed form', () => {
    fc.assert(
      fc.property(variate, (t) => {
        close(studentTSurvival(t, 1), 0.5 - Math.atan(t) / Math.PI, 1e-11);
        close(studentTSurvival(-t, 2), 0.5 + t / (2 * Math.sqrt(2 + t * t)), 1e-11);
      }),
    );
  });

  it('holds the confidence asked for within plus and minus its interval', () => {
    fc.assert(
      fc.property(probability, degrees, (confidence, df) => {
        const outside = studentTTwoSided(studentTInterval(confidence, df), df);
        if (confidence > 0.5) close(outside, 1 - confidence, 1e-9);
        else close(1 - outside, confidence, 1e-9 + 1e-15 / confidence);
      }),
      { numRuns: 150 },
    );
  });

  it('meets the normal limits with many degrees of freedom, the most allowed included', () => {
    for (const df of [1e10, 1e12]) close(studentTInterval(0.95, df), 1.959963984540054, 1e-9);
  });

  it('answers the ends of its range with limits, never with NaN', () => {
    assert.deepEqual(
      [studentTSurvival(Infinity, 3), studentTSurvival(-Infinity, 3), studentTSurvival(0, 3)],
      [0, 1, 0.5],
    );
    assert.deepEqual([studentTTwoSided(0, 3), studentTTwoSided(-Infinity, 3)], [1, 0]);
    assert.deepEqual([studentTInterval(0, 3), studentTInterval(1, 3)], [0, Infinity]);
  });

  it('refuses arguments that mean nothing, by name and value', () => {
    assert.throws(() => studentTSurvival(NaN, 3), /t must be a number, but is NaN/);
    assert.throws(() => studentTTwoSided(NaN, 3), /t must be a number, but is NaN/);
    for (const wrong of [studentTSurvival, studentTTwoSided, studentTInterval])
      assert.throws(() => wrong(0.5, 1.1e12), /df must be above 0 and at most 1e12, but is 1100000000000/);
    assert.throws(() => studentTInterval(95, 3), /confidence must lie between 0 and 1, but is 95/);
  });
});

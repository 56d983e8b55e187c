import { strict as assert } from 'node:assert';
import { compareWithProfile, profileMeanSquare, type Breakpoint } from '../../src/signal/profile.ts';
import { close } from '../published/vectors.ts';

const profile = (...points: [number, number][]): Breakpoint[] =>
  points.map(([frequency, density]) => ({ frequency, density }));

describe('a profile', () => {
  const measured = {
    density: new Float64Array(101).fill(0.2),
    step: 1,
    segmentLength: 200,
    rate: 200,
    segments: 9,
    averages: 9,
    noiseBandwidth: 1.5,
  };

  it('a slope of -3 dB an octave, where the usual formula divides by 0, is S1 f1 ln(f2/f1)', () => {
    close(profileMeanSquare(profile([10, 0.1], [100, 0.01])), Math.log(10), 1e-13);
    close(profileMeanSquare(profile([10, 0.1], [100, 0.01 * (1 + 1e-10)])), Math.log(10), 1e-9);
  });

  it('is straight on logarithmic axes between its breakpoints and nothing outside them', () => {
    const points = profile([10, 0.01], [1000, 1]);
    const flat = { ...measured, density: new Float64Array(101).fill(0.1) };
    const { decibels } = compareWithProfile({ ...flat, step: 10, rate: 2000 }, points);
    close(decibels[1], 10, 1e-12);
    close(decibels[100], -10, 1e-12);
    assert.ok(Math.abs(decibels[10]) < 1e-12 && Number.isNaN(decibels[0]));
  });

  it('a density is compared bin by bin and as a whole', () => {
    const { profileRms, measuredRms, decibels } = compareWithProfile(measured, profile([10, 0.1], [50, 0.1]));
    close(profileRms, 2, 1e-12);
    close(measuredRms, Math.sqrt(8), 1e-12);
    close(decibels[20], 3.0103, 1e-5);
    assert.ok(Number.isNaN(decibels[5]) && Number.isNaN(decibels[51]));
  });

  it('refuses fewer than two breakpoints, falling frequencies and a density of 0, naming the breakpoint', () => {
    assert.throws(() => profileMeanSquare(profile([10, 1])), /two breakpoints/);
    assert.throws(() => profileMeanSquare(profile([10, 1], [10, 2])), /breakpoint 2 at 10 Hz follows 10 Hz/);
    assert.throws(() => profileMeanSquare(profile([10, 1], [20, 0])), /breakpoint 2/);
    assert.throws(() => profileMeanSquare(profile([0, 1], [20, 1])), /breakpoint 1 .* not 0 Hz and 1/);
    assert.throws(() => profileMeanSquare(profile([10, 1], [Infinity, 1])), /breakpoint 2/);
    assert.throws(() => profileMeanSquare(profile([10, Infinity], [20, 1])), /breakpoint 1/);
  });
});

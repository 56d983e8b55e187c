import { profileMeanSquare, type Breakpoint } from '../../src/signal/profile.ts';
import { close } from './vectors.ts';

const profile = (...points: [number, number][]): Breakpoint[] =>
  points.map(([frequency, density]) => ({ frequency, density }));
const grms = (points: readonly Breakpoint[]): number => Math.sqrt(profileMeanSquare(points));

/** Density at `to` of a slope of so many dB an octave that begins at a breakpoint. */
const slopedDensity = (from: Breakpoint, slope: number, to: number): number =>
  from.density * 10 ** ((slope / 10) * Math.log2(to / from.frequency));

describe('NAVMAT P-9492', () => {
  // NAVMAT P-9492, Navy Manufacturing Screening Program (1979): 0.04 g^2/Hz from 80 to 350 Hz, 3 dB an octave up from
  // 20 Hz and down to 2000 Hz, 6.06 g r.m.s.
  it('with slopes of one, breakpoints .01 .04 .04 .007: 1.5 + 10.8 + 24.40 g^2, 6.058 g r.m.s.', () => {
    const points = profile([20, 0.01], [80, 0.04], [350, 0.04], [2000, 0.007]);
    const parts = [0, 1, 2].map((i) => profileMeanSquare(points.slice(i, i + 2)));
    close(parts[0], 1.5, 1e-12);
    close(parts[1], 10.8, 1e-12);
    close(parts[2], 24.4, 1e-3);
    close(grms(points), 6.058, 1e-4);
  });

  it('with exactly 3 dB an octave: 6.064 g r.m.s., 6.06 as the handbook has it', () => {
    const low = { frequency: 80, density: 0.04 };
    const high = { frequency: 350, density: 0.04 };
    const points = [
      { frequency: 20, density: slopedDensity(low, 3, 20) },
      low,
      high,
      { frequency: 2000, density: slopedDensity(high, -3, 2000) },
    ];
    close(grms(points), 6.064, 1e-4);
  });
});

describe('MIL-STD-810', () => {
  it('minimum integrity, .04 from 20 to 1000 Hz and -6 dB an octave to 2000 Hz: 7.7 g r.m.s.', () => {
    // MIL-STD-810F (2000), method 514.5, general minimum integrity exposure: 7.7 g r.m.s.
    const points = profile([20, 0.04], [1000, 0.04], [2000, 0.01]);
    close(profileMeanSquare(points.slice(0, 2)), 39.2, 1e-12);
    close(profileMeanSquare(points.slice(1)), 20, 1e-12);
    close(grms(points), 7.694, 1e-4);
  });

  it('common carrier by road: 1.04 g vertical, 0.20 g transverse, 0.74 g longitudinal', () => {
    // MIL-STD-810F (2000), method 514.5, figure 514.5C-1.
    close(grms(profile([10, 0.015], [40, 0.015], [500, 0.00015])), 1.04, 5e-3);
    const transverse = profile(
      [10, 0.00013],
      [20, 0.00065],
      [30, 0.00065],
      [78, 0.00002],
      [79, 0.00019],
      [120, 0.00019],
      [500, 0.00001],
    );
    close(grms(transverse), 0.2035, 1e-3);
    const longitudinal = profile(
      [10, 0.0065],
      [20, 0.0065],
      [120, 0.0002],
      [121, 0.003],
      [200, 0.003],
      [240, 0.0015],
      [340, 0.00003],
      [500, 0.00015],
    );
    close(grms(longitudinal), 0.74, 1e-3);
  });
});

describe('a flat profile', () => {
  it('flat profiles are width times density: 10..500 Hz at .02 is 3.13 g, 20..2000 Hz at .1 is 14.07 g (common practice, no source)', () => {
    close(profileMeanSquare(profile([10, 0.02], [500, 0.02])), 9.8, 1e-12);
    close(grms(profile([20, 0.1], [2000, 0.1])), 14.07, 1e-3);
  });
});

import { confidenceFactors, effectiveAverages } from '../../src/signal/confidence.ts';
import { windowShape } from '../../src/signal/windows.ts';
import { chiSquareQuantile } from '../../src/statistics/distributions/chiSquare.ts';
import { close } from './vectors.ts';

// NIST/SEMATECH e-Handbook of Statistical Methods (NIST Handbook 151), 1.3.6.7.4: lower and upper critical values at 0.025.
const quantiles: readonly (readonly [dof: number, low: number, high: number])[] = [
  [2, 0.051, 7.378],
  [10, 3.247, 20.483],
  [20, 9.591, 34.17],
  [40, 24.433, 59.342],
  [60, 40.482, 83.298],
  [100, 74.222, 129.561],
];

describe('chi-square limits of a density', () => {
  it('the tabulated quantiles give the factors nu / chi2', () => {
    for (const [dof, low, high] of quantiles) {
      const { lower, upper } = confidenceFactors(dof / 2, 0.95, chiSquareQuantile);
      close(lower, dof / high, 1e-4, `lower at ${dof}`);
      // Three decimals of 0.051 are one in a hundred.
      close(upper, dof / low, dof === 2 ? 0.01 : 2e-4, `upper at ${dof}`);
    }
  });

  it('for 85 s in 2 s Hann segments at 50 %: 84 segments, 79.6 averages, 0.812 to 1.262, -0.90 to +1.01 dB', () => {
    // Bendat and Piersol, Random Data, 8.5, with the effective averages of Welch 1967.
    const averages = effectiveAverages(windowShape('hann', 700), 350, [84]);
    close(averages, 79.6, 1e-3);
    const { lower, upper } = confidenceFactors(averages, 0.95, chiSquareQuantile);
    close(lower, 0.812, 1e-3);
    close(upper, 1.262, 1e-3);
    close(10 * Math.log10(lower), -0.9, 0.01);
    close(10 * Math.log10(upper), 1.01, 0.01);
  });

  it('75 % of overlap doubles the segments but hardly adds to the averages: 168 count as 87.6', () => {
    close(effectiveAverages(windowShape('hann', 700), 175, [168]), 87.6, 1e-3);
  });
});

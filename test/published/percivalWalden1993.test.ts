import { effectiveAverages } from '../../src/signal/confidence.ts';
import { windowShape } from '../../src/signal/windows.ts';
import { close } from './vectors.ts';

// Percival and Walden 1993, Spectral Analysis for Physical Applications, 6.17: degrees of freedom of Welch's
// estimate with a Hann window and 50 % overlap, nu = 36 K^2 / (19 K - 1). It follows from Welch's sum, 2 K / (1 + 2 (1 - 1/K) rho^2),
// with the correlation rho = 1/6 of two such windows.
describe('Percival and Walden 1993, degrees of freedom with Hann at 50 %', () => {
  for (const segments of [1, 2, 3, 10, 84, 1000]) {
    it(`K = ${segments}: nu = ${((36 * segments ** 2) / (19 * segments - 1)).toFixed(2)}`, () => {
      close(
        2 * effectiveAverages(windowShape('hann', 512), 256, [segments]),
        (36 * segments ** 2) / (19 * segments - 1),
        1e-12,
      );
    });
  }
});

import fc from 'fast-check';
import { stirlingError } from '../../../src/statistics/distributions/gamma.ts';
import { close } from '../../published/vectors.ts';

describe('stirlingError', () => {
  it('makes factorials of Stirling’s formula', () => {
    let factorial = 1;
    for (let n = 1; n <= 20; n++) {
      factorial *= n;
      close(Math.sqrt(2 * Math.PI * n) * (n / Math.E) ** n * Math.exp(stirlingError(n)), factorial, 1e-14, `${n}!`);
    }
  });

  it('is near 1 / (12 x) and falls a little below it, by 1 / (360 x^3)', () => {
    fc.assert(
      fc.property(fc.double({ min: 20, max: 1e6, noNaN: true }), (x) =>
        close(stirlingError(x), 1 / (12 * x) - 1 / (360 * x ** 3), 1e-7),
      ),
    );
  });
});

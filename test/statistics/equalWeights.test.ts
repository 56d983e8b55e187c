import { strict as assert } from 'node:assert';
import { equallyWeighted } from '../../src/statistics/equalWeights.ts';

const close = (actual: number, expected: number): void =>
  assert.ok(Math.abs(actual - expected) <= 1e-9 * Math.abs(expected), `${actual} is not ${expected}`);

describe('the mean of strata with equal weights', () => {
  it('has the standard error and the degrees of freedom that numpy gives', () => {
    // numpy: d.mean(), sqrt((se**2).sum()) / 3, (se**2).sum()**2 / (se**4 / df).sum()
    const found = equallyWeighted([
      { difference: -0.12783337, standardError: 0.02, df: 5 },
      { difference: -0.15301778, standardError: 0.0200437, df: 3.5487366 },
      { difference: -0.05, standardError: 0.031, df: 7.2 },
    ]);
    close(found.difference, -0.11028371666666666);
    close(found.standardError, 0.01399503844498709);
    close(found.df, 15.102347709196142);
  });

  it('is the difference itself of one stratum', () => {
    const one = { difference: -0.1, standardError: 0.02, df: 4.5 };
    const found = equallyWeighted([one]);
    close(found.difference, one.difference);
    close(found.standardError, one.standardError);
    close(found.df, one.df);
  });

  it('gives no study more weight for knowing its change better', () => {
    const sure = { difference: -0.3, standardError: 0.001, df: 30 };
    const unsure = { difference: 0.1, standardError: 0.1, df: 2 };
    close(equallyWeighted([sure, unsure]).difference, -0.1);
  });
});

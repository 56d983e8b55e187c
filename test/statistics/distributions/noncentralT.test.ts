import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { noncentralTCdf, noncentralTSurvival } from '../../../src/statistics/distributions/noncentralT.ts';
import { normalCdf } from '../../../src/statistics/distributions/normal.ts';
import { studentTSurvival } from '../../../src/statistics/distributions/studentT.ts';
import { close } from '../../published/vectors.ts';

const variate = fc.double({ min: -20, max: 20, noNaN: true });
const degrees = fc.double({ min: 1, max: 200, noNaN: true });
const shift = fc.double({ min: -8, max: 8, noNaN: true });

describe('the noncentral t distribution', () => {
  it('without noncentrality is t, and mirrors with its sign', () => {
    fc.assert(
      fc.property(variate, degrees, shift, (t, df, delta) => {
        close(noncentralTSurvival(t, df, 0), studentTSurvival(t, df), 1e-10);
        close(noncentralTCdf(t, df, delta), noncentralTSurvival(-t, df, -delta), 1e-12);
      }),
      { numRuns: 60 },
    );
  });

  it('has tails that add up to 1, the lower of which rises with t and falls with delta', () => {
    fc.assert(
      fc.property(variate, degrees, shift, (t, df, delta) => {
        const lower = noncentralTCdf(t, df, delta);
        close(lower + noncentralTSurvival(t, df, delta), 1, 1e-12);
        assert.ok(noncentralTCdf(t + 0.5, df, delta) >= lower * (1 - 1e-12));
        assert.ok(noncentralTCdf(t, df, delta + 0.5) <= lower * (1 + 1e-12));
      }),
      { numRuns: 60 },
    );
  });

  it('at 0 is the normal distribution of the noncentrality, for any degrees of freedom', () => {
    fc.assert(
      fc.property(degrees, shift, (df, delta) => close(noncentralTCdf(0, df, delta), normalCdf(-delta), 1e-12)),
    );
  });

  it('reaches to a noncentrality of 200 either way and refuses more', () => {
    assert.equal(noncentralTCdf(3, 5, 200), 0);
    close(noncentralTCdf(3, 5, -200), 1, 1e-14);
    assert.throws(() => noncentralTCdf(1, 2, Infinity), /delta must lie between -200 and 200, but is Infinity/);
    assert.throws(() => noncentralTCdf(1, 2, -200.1), /delta must lie between/);
    assert.throws(() => noncentralTCdf(Infinity, 2, 1), /t must be finite, but is Infinity/);
    assert.throws(() => noncentralTCdf(1, 0, 1), /df must be above 0/);
  });
});

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { multipleTLimit, multipleTSurvival } from '../../src/statistics/distributions/multipleT.ts';
import { studentTTwoSided } from '../../src/statistics/distributions/studentT.ts';
import { statement, type Jointly } from '../../src/statistics/interval.ts';

const estimate = { difference: 0.1, standardError: 0.04, df: 10 };
const close = (found: number, wanted: number, within = 1e-12): void =>
  assert.ok(Math.abs(found - wanted) <= within * Math.max(1, Math.abs(wanted)), `${found} is not ${wanted}`);

describe('what is stated of a row', () => {
  it('is d ± t se by itself, and with others by t of an mth of the chance', () => {
    // Where stats.t.sf(t, 10) of scipy 1.10.1 is 0.05 / 2 and 0.05 / 6, and 2 stats.t.sf(2.5, 10).
    const alone = statement(estimate, 0.95, 1);
    close(Math.log(alone.interval.low), 0.1 - 0.04 * 2.2281388519649385);
    close(Math.log(alone.interval.high), 0.1 + 0.04 * 2.2281388519649385);
    close(alone.p, 0.031446844236608776);
    const ofThree = statement(estimate, 0.95, 3);
    close(Math.log(ofThree.interval.low), 0.1 - 0.04 * 2.870072555658976);
    close(Math.log(ofThree.interval.high), 0.1 + 0.04 * 2.870072555658976);
    close(ofThree.p, 3 * 0.031446844236608776);
  });

  it('leaves 1 out exactly where p is at most what the confidence leaves, in either direction and in any family', () => {
    const given = fc.record({
      difference: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
      standardError: fc.double({ min: 0.01, max: 0.2, noNaN: true }),
      df: fc.double({ min: 1, max: 60, noNaN: true }),
    });
    fc.assert(
      fc.property(
        given,
        fc.constantFrom(0.8, 0.95, 0.99),
        fc.integer({ min: 1, max: 9 }),
        (one, confidence, family) => {
          const { interval, p } = statement(one, confidence, family);
          if (Math.abs(p - (1 - confidence)) < 1e-9) return;
          assert.equal(interval.low > 1 || interval.high < 1, p < 1 - confidence, `${JSON.stringify(interval)}, ${p}`);
          assert.ok(p > 0 && p <= 1);
          close(Math.sqrt(interval.low * interval.high), Math.exp(one.difference));
        },
      ),
    );
  });

  it('shares its scatter with the others of its band, and takes Bonferroni over the bands', () => {
    const jointly: Jointly = { count: 2, of: { kind: 'dunnett', changes: 2, correlation: 0.5 } };
    const { interval, p } = statement(estimate, 0.95, 6, jointly);
    close(Math.log(interval.high) - 0.1, 0.04 * multipleTLimit(0.05 / 3, 10, jointly.of));
    close(p, 3 * multipleTSurvival(2.5, 10, jointly.of));
    const bonferroni = statement(estimate, 0.95, 6);
    assert.ok(interval.high < bonferroni.interval.high && p < bonferroni.p);
    assert.equal(statement({ ...estimate, difference: 0 }, 0.95, 6, jointly).p, 1);
    assert.equal(statement({ ...estimate, difference: 0.001 }, 0.95, 6).p, 1);
  });

  it('is no closer than the runs alone, nor than with what was stated: the wider one counts', () => {
    const wide = { standardError: 0.05, df: 200 };
    const narrow = { standardError: 0.03, df: 3 };
    for (const byRuns of [wide, narrow, { standardError: 0.001, df: 90 }]) {
      const { interval, p } = statement({ ...estimate, byRuns }, 0.95, 1);
      const each = [estimate, byRuns].map((one) => statement({ ...one, difference: 0.1 }, 0.95, 1));
      assert.equal(interval.high, Math.max(...each.map((one) => one.interval.high)));
      assert.equal(p, Math.max(...each.map((one) => one.p)));
      close(each[1].p, studentTTwoSided(0.1 / byRuns.standardError, byRuns.df));
    }
  });
});

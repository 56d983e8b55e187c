import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { judge, verdictSentence } from '../../src/statistics/claim.ts';
import { claimedBothWays, claimText, claimZone, type Claim } from '../../src/statistics/claimForm.ts';
import { compare } from '../../src/statistics/compare.ts';

// 0.8581 [0.8093, 0.9099]
const comparison = compare([{ a: [0.3, 0.312, 0.305], b: [0.262, 0.255, 0.27] }]);
const verdictOn = (claim: Claim): string => judge(claim, comparison, 0).verdict;
const reduction = (kind: 'at least' | 'at most', percent: number): Claim => ({ kind, direction: 'reduction', percent });
const increase = (kind: 'at least' | 'at most', percent: number): Claim => ({ kind, direction: 'increase', percent });

describe('a claim', () => {
  it('is supported when the whole interval makes it true, contradicted when none of it does, else not shown', () => {
    const cases: [Claim, string][] = [
      [reduction('at least', 9), 'supported'],
      [reduction('at least', 10), 'not shown'],
      [reduction('at least', 15), 'not shown'],
      [reduction('at least', 20), 'contradicted'],
      [reduction('at most', 20), 'supported'],
      [reduction('at most', 15), 'not shown'],
      [reduction('at most', 8), 'contradicted'],
      [increase('at least', 1), 'contradicted'],
      [increase('at most', 1), 'supported'],
      [{ kind: 'reduces' }, 'supported'],
      [{ kind: 'increases' }, 'contradicted'],
      [{ kind: 'no worse than', percent: 0 }, 'supported'],
      [{ kind: 'no worse than', percent: 5 }, 'supported'],
      [{ kind: 'about', direction: 'reduction', percent: 14, tolerancePercent: 6 }, 'supported'],
      [{ kind: 'about', direction: 'reduction', percent: 14, tolerancePercent: 3 }, 'not shown'],
      [{ kind: 'about', direction: 'reduction', percent: 30, tolerancePercent: 5 }, 'contradicted'],
    ];
    assert.deepEqual(
      cases.map(([claim]) => [claimText(claim), verdictOn(claim)]),
      cases.map(([claim, verdict]) => [claimText(claim), verdict]),
    );
  });

  it('of power is told apart from one of amplitude: 27.75 % less power is 15 % less amplitude', () => {
    const ofPower: Claim = { kind: 'at least', direction: 'reduction', percent: 27.75, of: 'power' };
    assert.ok(Math.abs(claimZone(ofPower).high - 0.85) < 1e-12);
    assert.deepEqual(claimZone(reduction('at least', 15)), { low: 0, high: 0.85 });
    const both = claimedBothWays(reduction('at least', 15));
    assert.ok(both && Math.abs(both.powerPercent + 27.75) < 1e-9 && Math.abs(both.amplitudePercent + 15) < 1e-9);
    assert.match(
      judge(ofPower, comparison, 0).parts.bothWays ?? '',
      /^claimed -15\.0 % of amplitude, which is -27\.8 % of power; found -14\.2 % of amplitude, which is -26\.4 % of power$/,
    );
  });

  it('reads as a sentence, with the strongest claim that the data do carry', () => {
    const verdict = judge(reduction('at least', 15), comparison, 0);
    assert.equal(
      verdictSentence('In 10-50 Hz (z, seat) rms', verdict),
      'In 10-50 Hz (z, seat) rms changed by -14.2 % (95 % interval -19.1 to -9.0 %, 3 + 3 runs). ' +
        'The claim of a reduction of at least 15 % is not shown; a reduction of at least 9 % is supported.',
    );
    assert.equal(
      verdict.parts.because,
      'a reduction is shown, but whether it is as large or as small as claimed is not settled',
    );
  });

  it('says how many runs would settle it, and which way, or that none would', () => {
    const near = judge({ kind: 'about', direction: 'reduction', percent: 15, tolerancePercent: 4 }, comparison, 0);
    assert.ok(near.runsToSettle && near.runsToSettle > 3 && near.runsToSettle < 40);
    assert.match(near.parts.settle ?? '', /would support the claim \(80 % power/);
    const found = comparison.rows[0].changePercent ?? 0;
    const exact = judge(reduction('at least', -found), comparison, 0);
    assert.match(exact.parts.settle ?? '', /more runs would not settle it/);
    assert.equal(judge(reduction('at least', 5), comparison, 0).parts.settle, undefined);
  });

  it('a guard forces "not shown" and gives its reason, whatever the numbers say', () => {
    const verdict = judge(reduction('at least', 5), comparison, 0, {
      guards: ['run b2 is clipped', 'mean speeds differ by 12 %'],
    });
    assert.equal(verdict.verdict, 'not shown');
    assert.deepEqual([verdict.strongest, verdict.runsToSettle], [undefined, undefined]);
    assert.match(verdictSentence('Rms', verdict), /is not shown: run b2 is clipped; mean speeds differ by 12 %\.$/);
    assert.match(verdict.parts.settle ?? '', /once the reasons named are removed/);
    assert.ok(verdict.changePercent && verdict.changePercent < -14, 'the figure itself stays visible');
  });

  it('is never judged on fewer than 3 runs a side, on one run each, or on runs without scatter', () => {
    const claim: Claim = { kind: 'reduces' };
    const on = (a: number[], b: number[]): [string, string] => {
      const { verdict, guards } = judge(claim, compare([{ a, b }]), 0);
      return [verdict, guards[0]];
    };
    assert.deepEqual(on([3, 3.01], [1, 1.01]), ['not shown', '2 + 2 runs are too few to infer anything']);
    assert.deepEqual(on([3], [1]), ['not shown', 'one run each says nothing about how other runs would come out']);
    assert.deepEqual(on([3, 3, 3], [1, 1, 1]), [
      'not shown',
      'the runs do not differ at all, which real runs never do',
    ]);
    assert.deepEqual(on([3, 3, 3], [1, 0, 1])[0], 'not shown');
  });

  it('on a band picked after looking is judged by the interval that holds for all of them', () => {
    const band = { a: [0.3, 0.312, 0.305], b: [0.262, 0.255, 0.27] };
    const family = compare([band, band, band, band, band, band]);
    assert.equal(judge({ kind: 'reduces' }, family, 0).verdict, 'supported');
    assert.equal(judge(reduction('at least', 8), family, 0).verdict, 'supported');
    assert.equal(judge(reduction('at least', 8), family, 0, { simultaneous: true }).verdict, 'not shown');
  });

  it('is never both supported and contradicted by its opposite, and a weaker claim is never worse off', () => {
    const level = fc.double({ min: 0.5, max: 2, noNaN: true });
    const runs = fc.array(level, { minLength: 3, maxLength: 5 });
    const rank = { contradicted: 0, 'not shown': 1, supported: 2 };
    fc.assert(
      fc.property(runs, runs, fc.integer({ min: 1, max: 60 }), (a, b, percent) => {
        const data = compare([{ a, b }]);
        const strong = judge(reduction('at least', percent), data, 0);
        const weak = judge(reduction('at least', percent - 1), data, 0);
        assert.ok(rank[weak.verdict] >= rank[strong.verdict]);
        const opposite = judge(reduction('at most', percent), data, 0);
        if (strong.verdict === 'supported') assert.equal(opposite.verdict, 'contradicted');
        if (strong.strongest) {
          const { direction, percent } = strong.strongest;
          assert.equal(judge({ kind: 'at least', direction, percent }, data, 0).verdict, 'supported');
        }
      }),
      { numRuns: 60 },
    );
  });

  it('refuses percentages that no level can have', () => {
    assert.throws(() => claimZone(reduction('at least', 100)), /a change of -100 % is none that a level can have/);
    assert.throws(() => claimZone(reduction('at least', -5)), /must be 0 or more/);
    assert.throws(
      () => claimZone({ kind: 'about', direction: 'reduction', percent: 5, tolerancePercent: 0 }),
      /tolerance/,
    );
    assert.throws(() => judge({ kind: 'reduces' }, comparison, 3), /no band 3/);
  });
});

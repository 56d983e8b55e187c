import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { judge as judgeRow, type RowStatement, type Verdict } from '../../src/statistics/claim.ts';
import { claimedBothWays, claimZone, isPossible, type Claim } from '../../src/statistics/claimForm.ts';
import { compare } from '../../scripts/simulate/compareTwo.ts';
import type { Comparison } from '../../src/statistics/comparison.ts';

// 0.8581 [0.8093, 0.9099]
const comparison = compare([{ a: [0.3, 0.312, 0.305], b: [0.262, 0.255, 0.27] }]);
const judged = ({ rows: [row], confidence }: Comparison): RowStatement => ({
  ratio: row.ratio,
  interval: row.inference?.interval,
  spread: row.spread,
  confidence,
  noInference: row.inference === undefined ? 'few-runs' : undefined,
});
const judge = (claim: Claim, data: Comparison, forbidden = false): Verdict => judgeRow(claim, judged(data), forbidden);
const verdictOn = (claim: Claim): string => judge(claim, comparison).verdict;
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
      cases.map(([claim]) => [claim, verdictOn(claim)]),
      cases,
    );
  });

  it('comes with the change and its interval in percent, and the ratios for which it is true', () => {
    const { changePercent, lowPercent, highPercent, interval, zone } = judge(reduction('at least', 15), comparison);
    assert.deepEqual(
      [changePercent, lowPercent, highPercent].map((percent) => percent?.toFixed(1)),
      ['-14.2', '-19.1', '-9.0'],
    );
    assert.deepEqual(interval, comparison.rows[0].inference?.interval);
    assert.deepEqual(zone, { low: 0, high: 0.85 });
  });

  it('of power is told apart from one of amplitude: 27.75 % less power is 15 % less amplitude', () => {
    const ofPower: Claim = { kind: 'at least', direction: 'reduction', percent: 27.75, of: 'power' };
    assert.ok(Math.abs(claimZone(ofPower).high - 0.85) < 1e-12);
    assert.deepEqual(claimZone(reduction('at least', 15)), { low: 0, high: 0.85 });
    const both = claimedBothWays(reduction('at least', 15));
    assert.ok(both && Math.abs(both.powerPercent + 27.75) < 1e-9 && Math.abs(both.amplitudePercent + 15) < 1e-9);
    const { bothWays } = judge(ofPower, comparison);
    assert.ok(bothWays && Math.abs(bothWays.claimed.amplitudePercent + 15) < 1e-9);
    assert.deepEqual(bothWays.found, {
      amplitudePercent: comparison.rows[0].changePercent,
      powerPercent: comparison.rows[0].powerPercent,
    });
    assert.equal(judge({ kind: 'reduces' }, comparison).bothWays, undefined);
  });

  it('that is not shown comes with the strongest claim that the data do carry, and what they do show', () => {
    const { strongest, reason } = judge(reduction('at least', 15), comparison);
    assert.deepEqual([strongest, reason], [{ direction: 'reduction', percent: 9, of: 'amplitude' }, 'reduction-shown']);
    const up = judge(increase('at least', 15), compare([{ a: [1, 1.01, 1.02], b: [1.14, 1.17, 1.2] }]));
    assert.deepEqual([up.strongest?.direction, up.reason], ['increase', 'increase-shown']);
    const none = judge({ kind: 'reduces' }, compare([{ a: [1, 1.01, 1.02], b: [1.01, 1, 1.03] }]));
    assert.deepEqual([none.strongest, none.reason], [undefined, 'no-change-shown']);
    assert.equal(judge(reduction('at least', 9), comparison).reason, 'inside');
    assert.equal(judge({ kind: 'increases' }, comparison).reason, 'outside');
  });

  it('says how many runs would settle it, and which way, or that none would', () => {
    const near = judge({ kind: 'about', direction: 'reduction', percent: 15, tolerancePercent: 4 }, comparison);
    assert.ok(near.settle?.by === 'runs' && near.settle.runs > 3 && near.settle.runs < 40);
    assert.equal(near.settle.way, 'support');
    // The nearer end decides: the same runs settle a claim of 11 % by itself and with a far end beside it.
    const narrow = judge({ kind: 'about', direction: 'reduction', percent: 41, tolerancePercent: 30 }, comparison);
    const alone = judge(reduction('at least', 11), comparison);
    assert.ok(alone.settle?.by === 'runs' && alone.settle.way === 'support');
    assert.deepEqual(narrow.settle, alone.settle);
    const found = comparison.rows[0].changePercent ?? 0;
    const exact = judge(reduction('at least', -found), comparison);
    assert.deepEqual(exact.settle, { by: 'nothing' });
    assert.equal(judge(reduction('at least', 5), comparison).settle, undefined);
  });

  it('a guard forces "not shown", whatever the numbers say', () => {
    const verdict = judge(reduction('at least', 5), comparison, true);
    assert.deepEqual([verdict.verdict, verdict.reason, verdict.strongest], ['not shown', 'guarded', undefined]);
    assert.deepEqual(verdict.settle, { by: 'removing-guards' });
    assert.ok(verdict.changePercent && verdict.changePercent < -14, 'the figure itself stays visible');
  });

  it('is not shown of a row without inference, whatever its ratio', () => {
    const { verdict, reason, noInference } = judge({ kind: 'reduces' }, compare([{ a: [3, 3.01], b: [1, 1.01] }]));
    assert.deepEqual([verdict, reason, noInference], ['not shown', 'guarded', 'few-runs']);
  });

  it('comes with the strongest of its kind in the unit of the claim', () => {
    const ofPower = judge({ kind: 'at least', direction: 'reduction', percent: 40, of: 'power' }, comparison);
    // 1 - 0.9099^2 = 17.2 %.
    assert.deepEqual(ofPower.strongest, { direction: 'reduction', of: 'power', percent: 17 });
  });

  it('comes with the strongest in whole percent, below one in tenths', () => {
    const of = (low: number, high: number): (string | number | undefined)[] => {
      const row: RowStatement = {
        ratio: 0.9,
        interval: { low, high },
        spread: 0.1,
        confidence: 0.95,
        noInference: undefined,
      };
      const { strongest, reason } = judgeRow({ kind: 'at least', direction: 'reduction', percent: 99.95 }, row);
      return [reason, strongest?.direction, strongest?.percent];
    };
    assert.deepEqual(of(0.5, 0.9), ['outside', 'reduction', 10]);
    assert.deepEqual(of(0.0001, 0.001), ['reduction-shown', 'reduction', 99]);
    assert.deepEqual(of(0.0001, 0.9953), ['reduction-shown', 'reduction', 0.4]);
    assert.deepEqual(of(0.0001, 0.99), ['reduction-shown', 'reduction', 1]);
    assert.deepEqual(of(0.0001, 1), ['no-change-shown', undefined, undefined]);
    assert.deepEqual(of(1, 1.5).slice(1), [undefined, undefined]);
    assert.deepEqual(of(1.0247, 1.5).slice(1), ['increase', 2]);
  });

  it('says that no change is shown where the interval only just reaches none', () => {
    const reasonOf = (claim: Claim, low: number, high: number): string =>
      judgeRow(claim, { ...judged(comparison), interval: { low, high } }).reason;
    const [fall, rise] = [reduction('at least', 20), increase('at least', 20)];
    assert.deepEqual(
      [
        [fall, 0.5, 0.999],
        [fall, 0.5, 1],
        [rise, 1, 1.5],
        [rise, 1.001, 1.5],
        [rise, 0.9, 1.5],
      ].map(([claim, low, high]) => reasonOf(claim as Claim, low as number, high as number)),
      ['reduction-shown', 'no-change-shown', 'no-change-shown', 'increase-shown', 'no-change-shown'],
    );
  });

  it('would be settled by more runs in the way in which the change lies, on either side of what is claimed', () => {
    const about: Claim = { kind: 'about', direction: 'reduction', percent: 15, tolerancePercent: 5 };
    const settled = (ratio: number): unknown => {
      const row = { ...judged(comparison), ratio, interval: { low: 0.7, high: 0.95 }, spread: 0.02 };
      const { settle } = judgeRow(about, row);
      return settle?.by === 'runs' ? settle.way : settle?.by;
    };
    assert.deepEqual([0.77, 0.83, 0.87, 0.93].map(settled), ['contradict', 'support', 'support', 'contradict']);
    // The claim ends at 0.8: no number of runs parts a change from where it is.
    assert.equal(settled(0.8), 'nothing');
  });

  it('is judged by any interval that is laid against its ratios, ends included', () => {
    const claim: Claim = { kind: 'about', direction: 'reduction', percent: 15, tolerancePercent: 5 };
    const zone = claimZone(claim);
    const cases: [number, number, string][] = [
      [zone.low, zone.high, 'supported'],
      [0.79, zone.high, 'not shown'],
      [zone.low, 0.91, 'not shown'],
      [zone.high, 1, 'not shown'],
      [0.91, 1, 'contradicted'],
      [0.7, 0.79, 'contradicted'],
      [0.7, zone.low, 'not shown'],
    ];
    for (const [low, high, verdict] of cases)
      assert.equal(judgeRow(claim, { ...judged(comparison), interval: { low, high } }).verdict, verdict);
  });

  it('is never both supported and contradicted by its opposite, and a weaker claim is never worse off', () => {
    const level = fc.double({ min: 0.5, max: 2, noNaN: true });
    const runs = fc.array(level, { minLength: 3, maxLength: 5 });
    const rank = { contradicted: 0, 'not shown': 1, supported: 2 };
    fc.assert(
      fc.property(runs, runs, fc.integer({ min: 1, max: 60 }), (a, b, percent) => {
        const data = compare([{ a, b }]);
        const strong = judge(reduction('at least', percent), data);
        const weak = judge(reduction('at least', percent - 1), data);
        assert.ok(rank[weak.verdict] >= rank[strong.verdict]);
        const opposite = judge(reduction('at most', percent), data);
        if (strong.verdict === 'supported') assert.equal(opposite.verdict, 'contradicted');
        if (strong.strongest) {
          const { direction, percent } = strong.strongest;
          assert.equal(judge({ kind: 'at least', direction, percent }, data).verdict, 'supported');
        }
      }),
      { numRuns: 60 },
    );
  });

  it('refuses percentages that no level can have', () => {
    assert.throws(() => claimZone(reduction('at least', 100)), /a change of -100 % is none that a level can have/);
    assert.deepEqual(
      [99, 100, NaN, -5].map((percent) => isPossible(reduction('at least', percent))),
      [true, false, false, false],
    );
    assert.equal(isPossible({ kind: 'about', direction: 'reduction', percent: 95, tolerancePercent: 5 }), false);
    assert.throws(() => claimZone(reduction('at least', -5)), /must be 0 or more/);
    assert.throws(
      () => claimZone({ kind: 'about', direction: 'reduction', percent: 5, tolerancePercent: 0 }),
      /tolerance/,
    );
  });
});

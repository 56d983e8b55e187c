import { strict as assert } from 'node:assert';
import { claimText, guard, verdictWords, type VerdictWords } from '../../../src/analysis/messages/verdict.ts';
import { judge, type RowStatement, type NoInference } from '../../../src/statistics/claim.ts';
import type { Claim } from '../../../src/statistics/claimForm.ts';
import { compare } from '../../../scripts/simulate/compareTwo.ts';
import type { Comparison } from '../../../src/statistics/comparison.ts';
import type { Message } from '../../../src/result/result.ts';

// 0.8581 [0.8093, 0.9099]
const comparison = compare([{ a: [0.3, 0.312, 0.305], b: [0.262, 0.255, 0.27] }]);
const judged = ({ rows: [row], confidence }: Comparison, noInference?: NoInference): RowStatement => ({
  ratio: row.ratio,
  interval: row.inference?.interval,
  spread: row.spread,
  confidence,
  noInference,
});
const found = 'From cost $& of A to soft: gel. it was less.';

const words = (
  claim: Claim,
  {
    guards = [] as readonly Message[],
    data = comparison,
    shareOfA = undefined as number | undefined,
    noInference = undefined as NoInference | undefined,
    foundTellsWhy = false,
  } = {},
): VerdictWords =>
  verdictWords({
    found,
    a: 'cost $& of A',
    runsA: data.runsA,
    runsB: data.runsB,
    claim,
    verdict: judge(claim, judged(data, noInference), guards.length > 0),
    guards,
    foundTellsWhy,
    shareOfA,
    best: undefined,
    otherPlanned: undefined,
    fittedOnce: [],
  });

describe('the words of a claim', () => {
  it('state the number as it was claimed', () => {
    const cases: [Claim, string][] = [
      [{ kind: 'reduces' }, 'a reduction'],
      [{ kind: 'increases' }, 'an increase'],
      [{ kind: 'no worse than', percent: 5 }, 'an increase of no more than 5 %'],
      [
        { kind: 'at least', direction: 'reduction', percent: 27.75, of: 'power' },
        'a reduction of at least 27.75 % of power',
      ],
      [{ kind: 'at most', direction: 'reduction', percent: 15 }, 'a reduction of at most 15 %'],
      [
        { kind: 'about', direction: 'increase', percent: 15, tolerancePercent: 5 },
        'an increase of about 15 % (within 5 points)',
      ],
    ];
    for (const [claim, text] of cases) assert.equal(claimText(claim), text);
  });
});

describe('the words of a verdict', () => {
  it('begin with what was found, and name the strongest claim that the data do carry', () => {
    const { sentence, because, untold, settle } = words({ kind: 'at least', direction: 'reduction', percent: 15 });
    assert.equal(
      sentence,
      'From cost $& of A to soft: gel. it was less. ' +
        'The claim of a reduction of at least 15 % is not shown; a reduction of at least 9 % is supported.',
    );
    assert.equal(because[0], 'A reduction is shown, but whether it is as large as claimed is not settled.');
    assert.deepEqual(untold, because);
    const atMost = words({ kind: 'at most', direction: 'reduction', percent: 15 });
    assert.ok(!/as large as claimed/.test(atMost.because[0]), atMost.because[0]);
    assert.match(settle ?? '', /^if the change is really as found, about 106 runs of each would contradict the claim/);
    assert.match(
      words({ kind: 'about', direction: 'reduction', percent: 15, tolerancePercent: 4 }).settle ?? '',
      /would support the claim \(80 % power/,
    );
  });

  it('leave untold only what the sentence does not say', () => {
    const { sentence, because, untold } = words({ kind: 'reduces' }, { shareOfA: 98.66 });
    assert.match(sentence, /is supported: the whole interval lies where the claim is true\.$/);
    assert.deepEqual(because, [
      'The whole interval lies where the claim is true.',
      'The band holds 98.7 % of the mean square of cost $& of A.',
    ]);
    assert.deepEqual(untold, because.slice(1));
  });

  it('put a claim of power beside the same of amplitude', () => {
    assert.equal(
      words({ kind: 'at least', direction: 'reduction', percent: 27.75, of: 'power' }).because[1],
      'Claimed −15.0 % of amplitude, which is −27.8 % of power; found −14.2 % of amplitude, which is −26.4 % of power.',
    );
  });

  it('give the reasons that forbid a verdict, and of the data where they carry none', () => {
    const guards = [
      guard('guard.fault', { run: 'gel $1', code: 'clipped', channel: 'z' }),
      guard('guard.speeds', { column: 'speed', changePercent: 12 }),
    ];
    const guarded = words({ kind: 'reduces' }, { guards });
    assert.match(
      guarded.sentence,
      /is not shown: a recording has a fault: gel \$1 \(clipped, channel z\); the mean speeds differ by 12\.0 %, so the sides are not comparable\.$/,
    );
    const told = words({ kind: 'reduces' }, { guards, foundTellsWhy: true });
    assert.match(told.sentence, /it was less\. The claim of a reduction is not shown for the same reasons\.$/);
    assert.deepEqual(told.because, guarded.because);
    assert.match(guarded.settle ?? '', /once the reasons named are removed/);
    const because = (noInference: NoInference): string =>
      words({ kind: 'reduces' }, { noInference, data: compare([{ a: [3, 3.01], b: [1, 1.01] }]) }).because[0];
    assert.equal(because('few-runs'), '2 + 2 runs are too few to infer anything.');
    assert.equal(because('one-run-each'), 'One run each says nothing about how other runs would come out.');
    assert.equal(because('no-scatter'), 'The runs do not differ at all, which real runs never do.');
    assert.match(because('order-apart'), /^All runs of one condition came before the other’s/);
  });
});

import { strict as assert } from 'node:assert';
import { judge } from '../../../src/statistics/claim.ts';
import type { Claim } from '../../../src/statistics/claimForm.ts';
import { compare } from '../../../src/statistics/compare.ts';
import type { Note } from '../../../src/statistics/comparison.ts';
import {
  claimText,
  methodText,
  noteWarning,
  verdictWords,
  type VerdictWords,
} from '../../../src/analysis/evidence/methodWords.ts';

// 0.8581 [0.8093, 0.9099]
const comparison = compare([{ a: [0.3, 0.312, 0.305], b: [0.262, 0.255, 0.27] }]);
const names = { a: 'cost $& of A', b: 'gel', band: () => '10 to 50 Hz' };
const told = (note: Note): string => noteWarning(note, names).message;
const words = (claim: Claim, guards: readonly string[] = [], data = comparison): VerdictWords =>
  verdictWords('The rms', claim, data, judge(claim, data, 0, guards.length > 0), guards);

describe('the words of a method', () => {
  it('name it with the runs it rests on, or say why there is no interval', () => {
    assert.equal(methodText(comparison), 'Welch t interval on the logarithms of the runs, 3 + 3 runs');
    assert.equal(
      methodText(compare([{ a: [1], b: [2] }])),
      'one run each: within these two runs only; not evidence about the change itself',
    );
    assert.equal(
      methodText(compare([{ a: [1, 2], b: [2, 3] }])),
      '2 + 2 runs: too few to infer anything about other runs; at least 3 of each are needed',
    );
  });

  it('give a note the names of the sides as they are written', () => {
    assert.equal(
      told({ code: 'few-runs', runsA: 2, runsB: 4, needed: 3 }),
      'There are 2 runs of cost $& of A and 4 of gel; at least 3 of each are needed for an interval.',
    );
    assert.equal(
      told({ code: 'order-leans', lag: -1.5 }),
      'Runs of gel came on average 1.5 runs before those of cost $& of A, so a drift of 1 % a run would look like a change of 1.5 %; an ABBA order cancels it.',
    );
    assert.equal(
      told({ code: 'method-not-possible', method: 'paired', obstacle: 'unequal-counts', runsA: 3, runsB: 4 }),
      "Welch's method was used instead of paired: pairs need as many runs of cost $& of A as of gel, and there are 3 and 4.",
    );
  });

  it('say where an order comes from, where it was missing', () => {
    assert.match(
      told({ code: 'method-not-possible', method: 'trend', obstacle: 'no-order', runsA: 3, runsB: 3 }),
      /needs the order of the runs\. Give the order in a run sheet \(column order\), and load with it\.$/,
    );
    assert.match(
      told({ code: 'method-not-possible', method: 'trend', obstacle: 'same-place', runsA: 3, runsB: 3 }),
      /two runs have the same place in the order\.$/,
    );
  });

  it('begin a note about a row with its band', () => {
    const warning = noteWarning({ code: 'drift-seen', band: 0, perRun: 0.031, p: 0.0004, method: 'welch' }, names);
    assert.deepEqual(warning, {
      code: 'compare.drift-seen',
      message:
        '10 to 50 Hz: The level drifted by +3.1 % a run over the day (p below 0.001), which the trend method would take out.',
    });
    assert.match(
      told({ code: 'methods-disagree', band: 0, methods: ['paired', 'trend'], shown: true }),
      /^10 to 50 Hz: By the paired and trend methods the runs would show no difference where this method shows one/,
    );
  });
});

describe('the words of a claim', () => {
  it('state the number as it was claimed', () => {
    const cases: [Claim, string][] = [
      [{ kind: 'reduces' }, 'a reduction'],
      [{ kind: 'no worse than', percent: 5 }, 'an increase of no more than 5 %'],
      [
        { kind: 'at least', direction: 'reduction', percent: 27.75, of: 'power' },
        'a reduction of at least 27.75 % of power',
      ],
      [
        { kind: 'about', direction: 'increase', percent: 15, tolerancePercent: 5 },
        'an increase of about 15 % (within 5 points)',
      ],
    ];
    for (const [claim, text] of cases) assert.equal(claimText(claim), text);
  });

  it('read as a sentence, with the strongest claim that the data do carry', () => {
    const { sentence, because, settle } = words({ kind: 'at least', direction: 'reduction', percent: 15 });
    assert.equal(
      sentence,
      'The rms changed by −14.2 % (95 % interval −19.1 to −9.0 %, 3 + 3 runs). ' +
        'The claim of a reduction of at least 15 % is not shown; a reduction of at least 9 % is supported.',
    );
    assert.equal(because, 'a reduction is shown, but whether it is as large or as small as claimed is not settled');
    assert.match(settle ?? '', /^if the change is really as found, about 106 runs of each would contradict the claim/);
    assert.match(
      words({ kind: 'about', direction: 'reduction', percent: 15, tolerancePercent: 4 }).settle ?? '',
      /would support the claim \(80 % power/,
    );
  });

  it('put a claim of power beside the same of amplitude', () => {
    assert.equal(
      words({ kind: 'at least', direction: 'reduction', percent: 27.75, of: 'power' }).bothWays,
      'claimed −15.0 % of amplitude, which is −27.8 % of power; found −14.2 % of amplitude, which is −26.4 % of power',
    );
  });

  it('give the reasons that forbid a verdict, and of the data where they carry none', () => {
    const guarded = words({ kind: 'reduces' }, ['run b-2 is clipped', 'mean speeds differ by 12 %']);
    assert.match(guarded.sentence, /is not shown: run b-2 is clipped; mean speeds differ by 12 %\.$/);
    assert.match(guarded.settle ?? '', /once the reasons named are removed/);
    const because = (a: number[], b: number[]): string => words({ kind: 'reduces' }, [], compare([{ a, b }])).because;
    assert.equal(because([3, 3.01], [1, 1.01]), '2 + 2 runs are too few to infer anything');
    assert.equal(because([3], [1]), 'one run each says nothing about how other runs would come out');
    assert.equal(because([3, 3, 3], [1, 1, 1]), 'the runs do not differ at all, which real runs never do');
  });
});

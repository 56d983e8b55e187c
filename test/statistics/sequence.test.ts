import { strict as assert } from 'node:assert';
import type { KnownRun } from '../../src/statistics/knownRun.ts';
import { isWithholding, sequenceOf, type Sequence } from '../../src/statistics/sequence.ts';

const change = { from: 'A', to: 'B' };

/** Runs in the order of the letters; R is a reference run. */
const inOrder = (letters: string, days?: string): KnownRun[] =>
  [...letters].map((condition, k) => ({
    condition,
    stratum: '',
    place: k + 1,
    day: days?.[k],
    ...(condition === 'R' ? { isReference: true } : {}),
  }));
const of = (runs: readonly KnownRun[], inflation: number | undefined = 1, isKnown = true): Sequence =>
  sequenceOf(runs, change, isKnown, inflation);

describe('how the runs of two conditions follow one another', () => {
  const cases: readonly (readonly [letters: string, sequence: Sequence])[] = [
    ['ABBA', 'interleaved'],
    ['AABB', 'apart'],
    ['BBAA', 'apart'],
    ['AABAB', 'interleaved'],
    // Another condition is of neither side.
    ['AACBB', 'apart'],
    ['ACBBA', 'interleaved'],
    // Three reference runs before, between and after tell the drift, and no fewer, nor elsewhere.
    ['RAARBBR', 'interleaved'],
    ['RBBRAAR', 'interleaved'],
    ['RRAARBBRR', 'interleaved'],
    ['RAABBR', 'apart'],
    ['RAARBB', 'apart'],
    ['AARBBR', 'apart'],
    ['RRAABBR', 'apart'],
    ['AARRBBR', 'apart'],
    ['RAARRBB', 'apart'],
    ['ARARBBR', 'apart'],
    ['RAARBRB', 'apart'],
    ['RARABBR', 'apart'],
    ['RAABRBR', 'apart'],
  ];
  for (const [letters, sequence] of cases)
    it(`is ${sequence} as ${letters}`, () => assert.equal(of(inOrder(letters)), sequence));

  it('leans above a variance inflation of 1.5, or where none is known', () => {
    assert.equal(of(inOrder('ABBA'), 1.5), 'interleaved');
    assert.equal(of(inOrder('ABBA'), 1.51), 'leaning');
    assert.equal(sequenceOf(inOrder('ABBA'), change, true, undefined), 'leaning');
  });

  it('is not known without places', () => {
    assert.equal(of(inOrder('AABB'), 1, false), 'unknown');
  });

  it('is apart where it is so in one stratum', () => {
    const strata = (letters: string, stratum: string): KnownRun[] =>
      inOrder(letters).map((run) => ({ ...run, stratum }));
    assert.equal(of([...strata('ABBA', 'brick'), ...strata('BAAB', 'tile')]), 'interleaved');
    assert.equal(of([...strata('ABBA', 'brick'), ...strata('AABB', 'tile')]), 'apart');
    // A stratum of another condition alone is none of theirs, and one on other days is enough.
    assert.equal(of([...strata('ABBA', 'brick'), ...strata('CC', 'tile')]), 'interleaved');
    const days = inOrder('ABAB', '1212').map((run) => ({ ...run, stratum: 'tile' }));
    assert.equal(of([...strata('ABBA', 'brick'), ...days]), 'other-days');
  });

  it('is not that of a reference run in the condition of a side', () => {
    const [last] = inOrder('A');
    assert.equal(of([...inOrder('AABB'), { ...last, place: 5, isReference: true }]), 'apart');
  });

  it('is of other days where no day has both and some day has several runs', () => {
    assert.equal(of(inOrder('ABAB', '1212')), 'other-days');
    assert.equal(of(inOrder('ABAB', '1222')), 'interleaved');
    assert.equal(of(inOrder('ABAB', '1112')), 'interleaved');
    // Runs that each have a day of their own scatter by it.
    assert.equal(of(inOrder('ABAB', '1234')), 'interleaved');
    assert.equal(of(inOrder('ABAB', '1234'), 1, false), 'unknown');
    // Where the day of one run is not known, of either side.
    for (const missing of [0, 1])
      assert.equal(
        of(inOrder('ABAB', '1212').map((run, k) => (k === missing ? { ...run, day: undefined } : run))),
        'interleaved',
      );
    // A reference run on both days is of neither side.
    assert.equal(of(inOrder('ABABRR', '121212')), 'other-days');
  });

  it('withholds a verdict apart and of other days alone', () => {
    const all: readonly Sequence[] = ['unknown', 'interleaved', 'leaning', 'apart', 'other-days'];
    assert.deepEqual(all.filter(isWithholding), ['apart', 'other-days']);
    assert.equal(isWithholding(undefined), false);
  });
});

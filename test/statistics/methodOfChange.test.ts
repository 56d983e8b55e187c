import { strict as assert } from 'node:assert';
import type { KnownRun } from '../../src/statistics/knownRun.ts';
import { methodOfChange, runsOfChange } from '../../src/statistics/methodOfChange.ts';

const inStratum = (letters: string, stratum: string): KnownRun[] =>
  [...letters].map((condition) => ({ condition, stratum, ...(condition === 'R' ? { isReference: true } : {}) }));
const kept = (runs: readonly KnownRun[], stratum?: string): string => {
  const { runs: found, indices } = runsOfChange(runs, { from: 'A', to: 'B', stratum });
  assert.deepEqual(
    indices.map((index) => runs[index].condition),
    found.map(({ condition }) => condition),
  );
  if (stratum !== undefined) assert.ok(found.every((run) => run.stratum === ''));
  return found.map(({ condition }) => condition).join('');
};

describe('the runs that a change rests on', () => {
  it('are those of its sides, and of others that have runs enough for a scatter of their own', () => {
    assert.equal(kept(inStratum('ABABC', '')), 'ABAB');
    assert.equal(kept(inStratum('ABABCC', '')), 'ABAB');
    assert.equal(kept(inStratum('ABABCCC', '')), 'ABABCCC');
    // Two reference runs are enough.
    assert.equal(kept(inStratum('RABAB', '')), 'ABAB');
    assert.equal(kept(inStratum('RABABR', '')), 'RABABR');
  });

  it('of several strata need two runs in each', () => {
    const runs = [...inStratum('ABCC', 'brick'), ...inStratum('ABC', 'tile')];
    assert.equal(kept(runs), 'ABCCAB');
    const { runs: both } = runsOfChange(runs, { from: 'A', to: 'B' });
    assert.deepEqual([...new Set(both.map(({ stratum }) => stratum))], ['brick', 'tile']);
    // One stratum is a study of its own.
    assert.equal(kept(runs, 'brick'), 'AB');
    assert.equal(kept([...inStratum('ABCCC', 'brick'), ...inStratum('ABCC', 'tile')], 'brick'), 'ABCCC');
    assert.equal(kept([...inStratum('RAB', 'brick'), ...inStratum('RAB', 'tile')]), 'ABAB');
  });
});

describe('the method of a change', () => {
  const change = { from: 'A', to: 'B' };
  const days = (letters: string, more: (k: number) => Partial<KnownRun>): KnownRun[] =>
    [...letters].map((condition, k) => ({ condition, stratum: '', ...more(k) }));
  const inDays = (letters: string, place?: (k: number) => number | undefined): KnownRun[] =>
    days(letters, (k) => ({ day: String(k >> 1), stratum: String(k >> 1), place: place?.(k) }));

  it('is over the refits where the sheet names several of each, and no method was asked for', () => {
    const nested = days('AABBAABB', (k) => ({ refit: String(k >> 2), place: k }));
    const known = days('AABBAABB', (k) => ({ place: k }));
    assert.equal(methodOfChange(nested, change, {}).method, 'refits');
    assert.equal(methodOfChange(known, change, {}).method, 'trend');
    assert.equal(methodOfChange(nested, change, { method: 'trend' }).method, 'trend');
    assert.equal(methodOfChange(known, change, { method: 'trend' }).method, 'trend');
  });

  it('is over days where they stand for other days, but within a single one', () => {
    const runs = inDays('ABBAAB', (k) => k);
    const by = (isOverDays: boolean | undefined, stratum?: string): string =>
      methodOfChange(runs, { ...change, stratum }, { isOverDays }).method;
    assert.deepEqual([by(true), by(true, '0'), by(false), by(undefined)], ['over-days', 'strata', 'strata', 'strata']);
    assert.deepEqual(methodOfChange(runs, change, { isOverDays: true }).runs, [0, 1, 2, 3, 4, 5]);
  });

  it('over days is interleaved, apart or of an order that is not known', () => {
    const sequence = (runs: readonly KnownRun[]): string => methodOfChange(runs, change, { isOverDays: true }).sequence;
    assert.equal(sequence(inDays('ABBAAB', (k) => k)), 'interleaved');
    assert.equal(sequence(inDays('ABABAB', (k) => k)), 'apart');
    assert.equal(sequence(inDays('ABABAB')), 'unknown');
    assert.equal(sequence(inDays('ABABAB', (k) => (k === 3 ? undefined : k))), 'unknown');
    // Two of one place have no order.
    assert.equal(sequence(inDays('ABABAB', (k) => k >> 1)), 'unknown');
  });
});

import { strict as assert } from 'node:assert';
import type { KnownRun } from '../../src/statistics/knownRun.ts';
import { runsOfChange } from '../../src/statistics/methodOfChange.ts';

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
    // One stratum is a study of its own.
    assert.equal(kept(runs, 'brick'), 'AB');
    assert.equal(kept([...inStratum('ABCCC', 'brick'), ...inStratum('ABCC', 'tile')], 'brick'), 'ABCCC');
    assert.equal(kept([...inStratum('RAB', 'brick'), ...inStratum('RAB', 'tile')]), 'ABAB');
  });
});

import { strict as assert } from 'node:assert';
import { repeatsOf } from '../../../src/analysis/planning/repeats.ts';

const usual = { detect: 0.1, spread: 0.04, power: 0.8, confidence: 0.95 };

describe('the table of repeats', () => {
  it('goes from 3 to 12 runs, a little past the number needed, and to that number where it is large', () => {
    const of = (spread: number): { runs: number | undefined; rows: number[] } => {
      const found = repeatsOf({ ...usual, spread });
      assert.ok(found.ok);
      return { runs: found.value.runs, rows: found.value.table.map(({ runs }) => runs) };
    };
    const few = of(0.04);
    assert.deepEqual([few.rows[0], few.rows.at(-1)], [3, 12]);
    const some = of(0.12);
    assert.ok(some.runs !== undefined && some.runs > 12 && some.runs < 28);
    assert.equal(some.rows.at(-1), some.runs + 2);
    const many = of(0.2);
    assert.ok(many.runs !== undefined && many.runs > 30);
    assert.deepEqual(many.rows.slice(-2), [30, many.runs]);
  });

  it('is refused for a power that chance alone reaches', () => {
    const refused = repeatsOf({ ...usual, power: 0.3, confidence: 0.6 });
    assert.ok(!refused.ok);
    assert.equal(refused.failure.code, 'repeats.power');
    assert.equal(refused.failure.at, 'power');
  });
});

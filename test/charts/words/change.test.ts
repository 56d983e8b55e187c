import { strict as assert } from 'node:assert';
import { ratioDescription } from '../../../src/charts/words/change.ts';
import { comparison } from '../everyValue.ts';

describe('the words of a change over frequency', () => {
  const over = { from: 0, to: 100 };
  const below = [{ from: 20, to: 30 }];

  it('name where the interval leaves zero out, and that no verdict rests on it', () => {
    const open = { ...comparison, guards: [], sequence: 'interleaved' } as const;
    const said = ratioDescription(open, over, below, []);
    assert.match(
      said,
      /wholly below zero, widest stretches: 20–30 Hz; wholly above: nowhere\. No verdict rests on a bin\.$/,
    );
  });

  it('name no direction where the order or a doubt keeps every verdict back', () => {
    const guard = { code: 'guard.fault', message: 'a run is faulty', facts: {} };
    for (const held of [
      { ...comparison, sequence: 'apart' as const },
      { ...comparison, guards: [guard] },
      { ...comparison, rows: comparison.rows.map((row) => ({ ...row, guards: [guard] })) },
      { ...comparison, rows: comparison.rows.map((row) => ({ ...row, sequence: 'other-days' as const })) },
    ])
      assert.doesNotMatch(ratioDescription(held, over, below, below), /below|above/);
  });
});

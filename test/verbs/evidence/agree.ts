import { strict as assert } from 'node:assert';
import { present } from '../../../src/charts/present.ts';
import { toJson } from '../../../src/values/json.ts';
import { guardsOf } from '../../../src/analysis/evidence/guards.ts';
import type { ComparisonValue } from '../../../src/values/comparison.ts';
import type { ComparisonRow } from '../../../src/values/comparisonParts.ts';
import type { VerdictValue } from '../../../src/values/verdict.ts';

/** What a sentence says was found. */
function wordIn(sentence: string): string {
  if (/is not shown/.test(sentence)) return 'not shown';
  const [, word] = / was \S+ % (lower|higher) /.exec(sentence) ?? [];
  return word ?? (/ was the same within ±5/.test(sentence) ? 'equivalent' : `nothing: ${sentence}`);
}

/** That a row's outcome, sentence, interval, p and JSON say one thing. */
export function holdsTogether(value: ComparisonValue, row: ComparisonRow, index: number): void {
  const { outcome, lowPercent, highPercent, pAdjusted, sentence } = row;
  const json = (toJson(value) as { rows: Record<string, unknown>[] }).rows[index];
  assert.equal(wordIn(sentence), outcome);
  assert.deepEqual(
    [json['outcome'], json['sentence'], json['low_percent'] ?? undefined, json['p_adjusted'] ?? undefined],
    [outcome, sentence, lowPercent, pAdjusted],
  );
  if (lowPercent === undefined || highPercent === undefined || pAdjusted === undefined) {
    assert.deepEqual([lowPercent, highPercent, pAdjusted, row.p, outcome], [...Array(4).fill(undefined), 'not shown']);
    assert.doesNotMatch(sentence, /interval/);
    return;
  }
  const leavesOut0 = lowPercent > 0 || highPercent < 0;
  if (Math.abs(pAdjusted - 0.05) > 1e-9) assert.equal(leavesOut0, pAdjusted < 0.05);
  if (isWithheld(value, row)) {
    assert.equal(outcome, 'not shown');
    assert.deepEqual(
      [row.excludes, row.equivalent, json['excludes'], json['equivalence']],
      [undefined, undefined, null, null],
    );
  } else if (outcome === 'lower') assert.ok(highPercent < 0);
  else if (outcome === 'higher') assert.ok(lowPercent > 0);
  else if (outcome === 'equivalent') assert.ok(lowPercent >= 100 / 1.05 - 100 - 1e-9 && highPercent <= 5 + 1e-9);
  else assert.ok(!leavesOut0);
}

/** Whether anything outside the figures stands against a verdict by a row. */
export const isWithheld = (value: ComparisonValue, row: ComparisonRow): boolean =>
  (row.sequence ?? value.sequence) === 'apart' || guardsOf(value, row).length > 0;

/** That table and chart show every row's outcome. */
export function isShown(value: ComparisonValue): void {
  const { parts } = present(value, undefined, []);
  const word = ({ outcome }: ComparisonRow): string => (outcome === 'equivalent' ? 'the same within ±5 %' : outcome);
  const table = parts.find((part) => part.type === 'table');
  assert.ok(table?.type === 'table');
  const at = table.columns.findIndex(({ name }) => name === 'Outcome');
  assert.deepEqual(
    table.rows.map((cells) => cells[at]),
    value.rows.map(word),
  );
  const chart = parts.find((part) => part.type === 'chart');
  assert.ok(chart?.type === 'chart');
  for (const row of value.rows) assert.ok(chart.description.includes(`, ${word(row)}`), chart.description);
}

/** That a verdict says nothing that its row does not. */
export function agrees({ verdict, claim, sentence, ...value }: VerdictValue, { outcome, ...row }: ComparisonRow): void {
  assert.equal(value.row.sentence, row.sentence);
  assert.ok(sentence.startsWith(row.sentence) && sentence.includes(`The claim of ${claim} is ${verdict}`));
  // From a percentage to a ratio and back, to rounding.
  assert.ok(Math.abs((value.lowPercent ?? 0) + (row.highPercent ?? 0)) < 1e-9);
  if (verdict === 'not shown') return;
  // A row that shows no direction may rule a size out, and one that is withheld says nothing at all.
  const saysNothing = row.lowPercent === undefined || isWithheld(value.comparison, value.row);
  const isOfDirection = /^(a reduction|an increase)$/.test(claim);
  assert.ok(!saysNothing && !(isOfDirection && outcome === 'not shown'), `${sentence} of a row that shows nothing`);
  if (outcome !== 'equivalent' && isOfDirection)
    assert.equal(verdict === 'supported', (outcome === 'lower') === (claim === 'a reduction'));
}

import { strict as assert } from 'node:assert';
import type { ChartPart } from '../../../src/charts/output.ts';
import { present } from '../../../src/charts/present.ts';
import { tabulate } from '../../../src/values/tabulate.ts';
import { toJson } from '../../../src/values/json.ts';
import { guardsOf } from '../../../src/analysis/evidence/guards.ts';
import { isWithholding } from '../../../src/statistics/sequence.ts';
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
  hasFigures(row);
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

/** That the figures in a row's sentence are its own: the change, and the ends of the interval, as sizes where a direction is told. */
function hasFigures({ sentence, outcome, changePercent, lowPercent, highPercent }: ComparisonRow): void {
  const near = (text: string | undefined, figure: number): void =>
    assert.ok(
      text !== undefined && Math.abs(numberOf(text) - figure) < (Math.abs(figure) < 100 ? 0.06 : 0.6),
      sentence,
    );
  const [, size] = / was ([\d.]+) % (?:lower|higher) /.exec(sentence) ?? [];
  const [, signed] = /(?:: |\()([+−]?[\d.]+) % (?:\(|was measured)/.exec(sentence) ?? [];
  const sign = outcome === 'lower' ? -1 : 1;
  if (outcome === 'lower' || outcome === 'higher') near(size, sign * changePercent);
  else near(signed, changePercent);
  if (lowPercent === undefined || highPercent === undefined) return;
  const [, from, to] = /interval ([+−]?[\d.]+) to ([+−]?[\d.]+) %/.exec(sentence) ?? [];
  const ends = outcome === 'lower' ? [-highPercent, -lowPercent] : [lowPercent, highPercent];
  near(from, ends[0]);
  near(to, ends[1]);
}

/** Whether anything outside the figures stands against a verdict by a row. */
export const isWithheld = (value: ComparisonValue, row: ComparisonRow): boolean =>
  isWithholding(row.sequence ?? value.sequence) || guardsOf(value, row).length > 0;

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
  const cells = tabulate(value) ?? assert.fail('no table');
  const outcomeAt = cells.columns.findIndex(({ name }) => name === 'outcome');
  assert.deepEqual(
    cells.rows.map((row) => row[outcomeAt]),
    value.rows.map(word),
  );
  const isInferred = value.rows.some(({ lowPercent }) => lowPercent !== undefined);
  for (const name of ['low', 'high', 'p', 'p adjusted'])
    assert.equal(
      cells.columns.some((column) => column.name === name),
      isInferred,
      name,
    );
  const chart = parts.find((part) => part.type === 'chart');
  assert.ok(chart?.type === 'chart');
  for (const row of value.rows) assert.ok(chart.description.includes(`, ${word(row)}`), chart.description);
  holdsLabels(chart, value, word);
}

/** That the marks, labels and colours of a chart of changes are those of its rows, and its shading what counts as none. */
function holdsLabels(chart: ChartPart, value: ComparisonValue, word: (row: ComparisonRow) => string): void {
  const drawn = rowsIn(chart).filter((one) => typeof one['text'] === 'string' && 'outcome' in one);
  assert.ok(drawn.length >= value.rows.length);
  for (const mark of drawn) {
    const row = value.rows.find(({ sentence }) => String(mark['says']).endsWith(sentence)) ?? assert.fail('no row');
    assert.equal(mark['outcome'], word(row));
    const [, change, low, high, said] =
      /^([+−]?[\d.]+) %(?: \(([+−]?[\d.]+) to ([+−]?[\d.]+)\))?, (.*)$/.exec(String(mark['text'])) ?? [];
    assert.equal(said, word(row));
    const near = (text: string | undefined, figure: number | undefined): void =>
      assert.ok(
        (text === undefined) === (figure === undefined) && Math.abs(numberOf(text) - (figure ?? 0)) < 0.06,
        text,
      );
    near(change, row.changePercent);
    near(low, row.lowPercent);
    near(high, row.highPercent);
    // What is read off the label is what it is called.
    if (said === 'lower') assert.ok(numberOf(high) <= 0);
    if (said === 'higher') assert.ok(numberOf(low) >= 0);
  }
  if (value.margin === undefined) return;
  const zone = rowsIn(chart).find((one) => 'from' in one && 'to' in one) ?? assert.fail('no shading');
  for (const { outcome, lowPercent = NaN, highPercent = NaN } of value.rows) {
    const isWithin = lowPercent >= Number(zone['from']) - 1e-9 && highPercent <= Number(zone['to']) + 1e-9;
    if (outcome === 'equivalent') assert.ok(isWithin);
    else if (outcome !== 'not shown') assert.ok(!isWithin);
  }
}

const numberOf = (text = '0'): number => Number(text.replace('−', '-'));

/** All inline rows of a chart's data. */
function rowsIn({ vega }: ChartPart): Readonly<Record<string, unknown>>[] {
  const data = vega['data'] as readonly { readonly values?: readonly Readonly<Record<string, unknown>>[] }[];
  return data.flatMap(({ values }) => values ?? []);
}

/** That a verdict says nothing that its row does not. */
export function agrees({ verdict, claim, sentence, ...value }: VerdictValue, { outcome, ...row }: ComparisonRow): void {
  assert.equal(value.row.sentence, row.sentence);
  const json = toJson({ verdict, claim, sentence, ...value }) as Record<string, unknown>;
  const percent = (key: string): number | undefined => (json[key] as number | null) ?? undefined;
  assert.deepEqual(
    [json['verdict'], json['claim'], json['sentence'], percent('low_percent'), percent('high_percent')],
    [verdict, claim, sentence, value.lowPercent, value.highPercent],
  );
  assert.ok(sentence.startsWith(row.sentence) && sentence.includes(`The claim of ${claim} is ${verdict}`));
  // From a percentage to a ratio and back, to rounding.
  assert.ok(Math.abs((value.lowPercent ?? 0) + (row.highPercent ?? 0)) < 1e-9);
  isDrawn({ verdict, claim, sentence, ...value });
  if (verdict === 'not shown') return;
  // A row that shows no direction may rule a size out, and one that is withheld says nothing at all.
  const saysNothing = row.lowPercent === undefined || isWithheld(value.comparison, value.row);
  const isOfDirection = /^(a reduction|an increase)$/.test(claim);
  assert.ok(!saysNothing && !(isOfDirection && outcome === 'not shown'), `${sentence} of a row that shows nothing`);
  if (outcome !== 'equivalent' && isOfDirection)
    assert.equal(verdict === 'supported', (outcome === 'lower') === (claim === 'a reduction'));
}

/** That the picture of a verdict has its title, and its interval where the verdict says: inside of what is shaded, or outside. */
function isDrawn(value: VerdictValue): void {
  const { verdict, claim, row, claimed } = value;
  const chart = present(value, undefined, []).parts.find((part) => part.type === 'chart');
  assert.ok(chart?.type === 'chart');
  assert.equal(chart.title.toLowerCase(), `${verdict}: ${claim}`.toLowerCase());
  assert.match(chart.description, /The claim allows (a|an|any) (reduction|increase)/);
  if (verdict === 'not shown' || row.lowPercent === undefined || row.highPercent === undefined) return;
  const percent = (ratio: number | undefined, open: number): number => (ratio === undefined ? open : 100 * (ratio - 1));
  const [from, to] = [percent(claimed.from, -Infinity), percent(claimed.to, Infinity)];
  const isInside = row.lowPercent >= from - 1e-9 && row.highPercent <= to + 1e-9;
  const isOutside = row.lowPercent > to || row.highPercent < from;
  assert.ok(verdict === 'supported' ? isInside : isOutside, chart.description);
  const ends = rowsIn(chart).filter((one) => typeof one['end'] === 'number');
  const told = [from, to].filter(Number.isFinite);
  const isAt =
    (end: number) =>
    (one: { readonly end?: unknown }): boolean =>
      Math.abs(Number(one.end) - end) < 1e-3 * (1 + Math.abs(end));
  const named = ends.filter(({ text }) => typeof text === 'string');
  const lines = ends.filter(({ text }) => text === undefined);
  const says = `ends ${JSON.stringify(ends)} of a claim from ${from} to ${to}`;
  assert.ok(named.length === told.length && told.every((end) => named.some(isAt(end))), says);
  // Beside the line at zero.
  assert.ok(
    lines.every((one) => [0, ...told].some((end) => isAt(end)(one))) && told.every((end) => lines.some(isAt(end))),
    says,
  );
}

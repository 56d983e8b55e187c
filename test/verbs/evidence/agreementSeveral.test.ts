import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { present } from '../../../src/charts/present.ts';
import { williamsOrder } from '../../../src/statistics/severalOrder.ts';
import type { ComparisonValue } from '../../../src/values/comparison.ts';
import type { ComparisonRow } from '../../../src/values/comparisonParts.ts';
import { toJson } from '../../../src/values/json.ts';
import type { VerdictValue } from '../../../src/values/verdict.ts';
import { Engine } from '../../../src/engine/engine.ts';
import { MemoryHost, quietWatch } from '../../engine/memoryFiles.ts';
import { loadMounts, mounts, type Mounts } from '../mounts.ts';
import { agrees, holdsTogether, isShown, isWithheld } from './agree.ts';

const names = ['rigid', 'rubber', 'cork', 'felt'];
const bands = ['10..30 Hz', '12..28 Hz'];
const flows = ['low', 'mid', 'high'];
const doubts = ['none', 'speeds', 'other channel planned', 'other band planned'] as const;

/** Three or four conditions in one to three strata, with changes, scatter and an order, and what may stand against them. */
const study = fc
  .record({
    conditions: fc.constantFrom(3, 3, 4),
    strata: fc.constantFrom(1, 2, 2, 3),
    runs: fc.constantFrom(2, 3, 4),
    changes: fc.array(fc.constantFrom(-30, -12, -4, 0, 4, 12), { minLength: 4, maxLength: 4 }),
    interaction: fc.constantFrom(0, 0, 10, -20),
    scatter: fc.constantFrom(0.2, 1, 4),
    wobbles: fc.uniqueArray(fc.integer({ min: -1000, max: 1000 }), { minLength: 48, maxLength: 48 }),
    order: fc.constantFrom('williams', 'williams', 'apart', 'unknown'),
    over: fc.constantFrom(1, 2),
    primary: fc.boolean(),
    margin: fc.boolean(),
    allPairs: fc.boolean(),
    adjust: fc.boolean(),
    pooled: fc.boolean(),
    doubt: fc.constantFrom(...doubts),
  })
  .map(({ doubt, ...drawn }) => ({ ...written(drawn, doubt), drawn, doubt }));

interface Drawn {
  readonly conditions: number;
  readonly strata: number;
  readonly runs: number;
  readonly changes: readonly number[];
  readonly interaction: number;
  readonly scatter: number;
  readonly wobbles: readonly number[];
  readonly order: string;
  readonly over: number;
  readonly primary: boolean;
  readonly margin: boolean;
  readonly allPairs: boolean;
  readonly adjust: boolean;
  readonly pooled: boolean;
}

/** The recordings, and the cell up to a comparison C. */
function written(drawn: Drawn, doubt: (typeof doubts)[number]): { made: Mounts; cell: string } {
  const { conditions, strata, over, primary, margin, allPairs, adjust, pooled } = drawn;
  const own = names.slice(0, conditions);
  const first = primary ? ` primary ${bands[0]}` : '';
  const others = bands.slice(primary ? 1 : 0, over);
  const planned = {
    none: pooled ? 'p = plan "Less?" pooled\n' : '',
    speeds: '',
    'other channel planned': 'p = plan "Less?" channel x\n',
    'other band planned': 'p = plan "Less?" primary 30..40 Hz\n',
  }[doubt];
  const text = [
    `C = compare rigid with ${own.slice(1).join(', ')}${allPairs ? ' all-pairs' : ''}${strata > 1 ? ' within flow' : ''}${first}`,
    others.length > 0 ? ` over ${others.join(', ')}` : primary ? '' : ` over ${bands[0]}`,
    margin ? ' margin 5 %' : '',
    adjust ? ' adjust speed exponent 0.5 uncertainty 0.2' : '',
    planned === '' ? '' : ' plan p',
  ].join('');
  return { made: recordings(drawn, doubt), cell: `${loadMounts(own)}${planned}${text}\n` };
}

function recordings(drawn: Drawn, doubt: string): Mounts {
  const { conditions, strata, runs, changes, interaction, scatter, wobbles, order } = drawn;
  const inOrder = williamsOrder(runs, conditions);
  const sequence = order === 'apart' ? [...inOrder].sort((x, y) => x - y) : inOrder;
  return {
    runs: flows.slice(0, strata).flatMap((flow, f) =>
      sequence.map((condition, k) => {
        const change = condition === 0 ? 0 : changes[condition - 1] + (condition === 1 ? f * interaction : 0);
        const wobble = (scatter * wobbles[(f * sequence.length + k) % wobbles.length]) / 100_000;
        const speed = doubt === 'speeds' && condition > 0 ? 1.5 : 1.2 + ((f + k) % 3) / 100;
        return {
          condition: names[condition],
          level: 0.3 * (1 + change / 100) * Math.exp(wobble) * (1 + f / 10),
          facts: { ...(order === 'unknown' ? {} : { order: k + 1 }), flow, 'speed (m/s)': speed.toFixed(2) },
        };
      }),
    ),
  };
}

/** That a row is named alike in its sentence, its JSON, the table and the chart's label. */
function isNamedAlike(value: ComparisonValue, row: ComparisonRow, index: number): void {
  const { baseline, condition, stratum, sentence } = row;
  const json = (toJson(value) as unknown as { rows: Record<string, unknown>[] }).rows[index];
  assert.deepEqual([json['condition'], json['stratum'] ?? 'all'], [condition, stratum ?? 'all']);
  assert.ok(sentence.includes(condition) && sentence.includes(baseline), sentence);
  if (value.strata !== undefined)
    assert.ok(sentence.includes(stratum === undefined ? 'with equal weights' : `flow ${stratum}`), sentence);
  const { parts } = present(value, undefined, []);
  const table = parts.find((part) => part.type === 'table');
  assert.ok(table?.type === 'table');
  const cells = table.rows[index].map(String);
  assert.ok(
    cells.some((cell) => cell.startsWith(condition)),
    cells.join(),
  );
  if (value.strata !== undefined) assert.ok(cells.includes(stratum ?? 'all'), cells.join());
}

/** That no two rows of the circle A to B to C say what the third denies. */
function closesCircles({ rows }: ComparisonValue): void {
  const found = (from: string, to: string, of: ComparisonRow): ComparisonRow | undefined =>
    rows.find(
      (row) =>
        row.baseline === from &&
        row.condition === to &&
        row.stratum === of.stratum &&
        row.band.from === of.band.from &&
        row.channel === of.channel,
    );
  for (const first of rows)
    for (const to of new Set(rows.map(({ condition }) => condition))) {
      const [second, both] = [found(first.condition, to, first), found(first.baseline, to, first)];
      if (second === undefined || both === undefined) continue;
      const outcomes = [first, second].map(({ outcome }) => outcome);
      for (const [way, other] of [
        ['lower', 'higher'],
        ['higher', 'lower'],
      ])
        if (outcomes.every((outcome) => outcome === way)) assert.notEqual(both.outcome, other);
    }
}

const claims = ['reduction', 'increase', 'reduction 10 %', 'reduction at-most 10 %'];

/** The comparison C of a cell, and what becomes of every claim about every condition, over all strata and in each. */
async function judged(
  cell: string,
  { conditions, strata }: Drawn,
  made: Mounts,
): Promise<{ value: ComparisonValue; verdicts: readonly VerdictValue[] }> {
  const where = ['', ...(strata === 1 ? [] : flows.slice(0, strata).map((flow) => ` stratum ${flow}`))];
  const lines = where.flatMap((stratum) =>
    names
      .slice(1, conditions)
      .flatMap((name) => claims.map((one) => `claim C ${name} ${one} over ${bands[0]}${stratum}`)),
  );
  const engine = new Engine(new MemoryHost(mounts(made)));
  const { results } = await engine.run({ cells: [cell + lines.join('\n')], wanted: 'all' }, quietWatch);
  assert.deepEqual(
    results.flatMap(({ error }) => error?.message ?? []),
    [],
  );
  const value = results.find(({ name }) => name === 'C')?.value;
  assert.ok(value?.kind === 'comparison');
  const verdicts = results.flatMap(({ value }) => (value?.kind === 'verdict' ? [value] : []));
  assert.equal(verdicts.length, lines.length);
  return { value, verdicts };
}

/** That claims about one row agree with it, and that no two with opposite sense are supported. */
function claimsAgree(value: ComparisonValue, verdicts: readonly VerdictValue[]): void {
  for (let k = 0; k < verdicts.length; k += claims.length) {
    const ofRow = verdicts.slice(k, k + claims.length);
    const [{ row: claimed }] = ofRow;
    const row = value.rows.find(
      (one) =>
        one.baseline === 'rigid' &&
        one.condition === claimed.condition &&
        one.stratum === claimed.stratum &&
        one.band.from === claimed.band.from,
    );
    assert.ok(row);
    for (const verdict of ofRow) agrees(verdict, row);
    const [less, more, least, most] = ofRow.map(({ verdict }) => verdict);
    const both = (one: string, other: string): boolean => one === 'supported' && other === 'supported';
    assert.ok(!both(less, more) && !both(least, most) && !both(least, more));
  }
}

describe('what is said of several conditions and strata', () => {
  it('never contradicts itself in row, sentence, chart, table, JSON and claims', async () => {
    await fc.assert(
      fc.asyncProperty(study, async ({ made, cell, drawn, doubt }) => {
        const { value, verdicts } = await judged(cell, drawn, made);
        const count = drawn.conditions;
        const between = drawn.allPairs ? (count * (count - 1)) / 2 : count - 1;
        const bandCount = new Set(value.rows.map(({ band }) => band.from)).size;
        assert.equal(value.rows.length, between * bandCount * (drawn.strata === 1 ? 1 : drawn.strata + 1));
        if (doubt.startsWith('other') || drawn.order === 'apart')
          assert.ok(
            value.rows.every((row) => row.lowPercent === undefined || isWithheld(value, row)),
            doubt,
          );
        value.rows.forEach((row, index) => {
          holdsTogether(value, row, index);
          isNamedAlike(value, row, index);
        });
        isShown(value);
        closesCircles(value);
        claimsAgree(value, verdicts);
      }),
      { numRuns: 16, seed: 41, endOnFailure: true },
    );
  }).timeout(600_000);
});

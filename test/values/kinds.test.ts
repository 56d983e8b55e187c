import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import type { Column } from '../../src/values/description.ts';
import { fieldOf, fieldsOf } from '../../src/values/fields.ts';
import { toJson, type Json } from '../../src/values/json.ts';
import {
  descriptionOf,
  handsOnExcluded,
  isDrawable,
  kindNames,
  kinds,
  namedBy,
  runsOf,
  tabulatedKinds,
} from '../../src/values/kinds.ts';
import { pickOf } from '../../src/values/pick.ts';
import { figuresIn } from '../../src/values/rows.ts';
import { tabulate } from '../../src/values/tabulate.ts';
import type { Value } from '../../src/values/value.ts';
import { makeRecord } from '../../src/notebook/record.ts';
import { everyValue } from '../charts/everyValue.ts';

const values: readonly Value[] = Object.values(everyValue);

/** The value of a kind by its name, so that a counterexample is short. */
const kindName = fc.constantFrom(...kindNames);

/** What JSON cannot hold: paths of NaN, infinite, undefined and of anything but plain data. */
function notJson(value: unknown, path = ''): string[] {
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return [];
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (typeof value !== 'object' || ArrayBuffer.isView(value)) return [path];
  return Object.entries(value).flatMap(([key, part]) => notJson(part, `${path}/${key}`));
}

/** A value with some of its figures spoilt: what a computation could not give. */
function spoilt(value: unknown, spoil: readonly (number | undefined)[], depth = 0): unknown {
  if (typeof value === 'number') return spoil[Math.abs(Math.trunc(value * 1e6)) % spoil.length] ?? value;
  if (depth > 4 || typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return value;
  if (Array.isArray(value)) return value.map((part) => spoilt(part, spoil, depth + 1));
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, spoilt(part, spoil, depth + 1)]));
}

/** The numbers anywhere in a JSON document. */
function numbersIn(value: Json): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

/** The figures of the first row that stand in tables and JSON, and of a value without rows its own. */
function figuresOf(
  value: Value,
): { readonly key: string; readonly heading: string; readonly value: number; readonly field: boolean }[] {
  const { rows, whole } = descriptionOf(value);
  const of = (columns: readonly Column<never, never>[], row: unknown): ReturnType<typeof figuresOf> =>
    figuresIn(columns as readonly Column<unknown, Value>[]).flatMap(
      ({ key, heading = key, read, notIn, json, doc }) => {
        const found = read(row, value);
        if (typeof found !== 'number' || notIn !== undefined || json !== undefined) return [];
        return [
          {
            key,
            heading: typeof heading === 'string' ? heading : heading(value),
            value: found,
            field: doc !== undefined,
          },
        ];
      },
    );
  if (rows === undefined) return of(whole, value);
  const [first] = rows.of(value);
  return first === undefined ? [] : of([...rows.names, ...rows.columns], first);
}

describe('the kinds of value', () => {
  it('are described under their own names, each with words for a sentence', () => {
    for (const kind of kindNames) {
      assert.equal(kinds[kind].kind, kind);
      assert.match(kinds[kind].words, /^(an? )?[a-z]/);
    }
    assert.deepEqual([...kindNames].sort(), Object.keys(everyValue).sort());
  });

  it('give JSON without NaN, infinity or undefined, whatever of their rows is missing', () => {
    const holes = fc.array(fc.constantFrom(NaN, Infinity, -Infinity, undefined), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(kindName, holes, (kind, spoil) => {
        const value: Value = everyValue[kind];
        assert.deepEqual(notJson(toJson(value)), []);
        if (!('rows' in value)) return;
        const broken = { ...value, rows: spoilt(value.rows, spoil) } as Value;
        assert.deepEqual(notJson(toJson(broken)), []);
      }),
    );
  });

  it('record something of every kind but a chart', () => {
    for (const value of values) {
      const statement = { name: 'v', kind: value.kind, value: toJson(value), warnings: [], error: null };
      const run = { notebook: 'n.md', sources: [], cells: [{ index: 0, statements: [statement] }] };
      const count = Object.keys(makeRecord(run, 'test').results).length;
      assert.equal(count > 0, value.kind !== 'chart');
    }
  });
});

describe('a column with a figure', () => {
  it('stands in JSON', () => {
    for (const value of values) {
      if (descriptionOf(value).json !== undefined) continue;
      const found = numbersIn(toJson(value));
      for (const { key, value: figure } of figuresOf(value))
        assert.ok(found.includes(figure), `${value.kind}.${key} is ${figure}, which JSON has not`);
    }
  });

  it('stands in the table under its heading, where the table has a row a row', () => {
    for (const value of values) {
      const { table, rows } = descriptionOf(value);
      const cells = tabulate(value);
      if (cells === undefined || table !== undefined || rows?.series !== undefined) continue;
      for (const { heading, value: figure } of figuresOf(value)) {
        const at = cells.columns.flatMap(({ name }, index) => (name === heading ? [index] : []));
        assert.ok(
          at.some((index) => cells.rows[0][index] === figure),
          `${value.kind}: ${heading}`,
        );
      }
    }
  });

  it('is the field of its name, where it has a docstring', () => {
    for (const value of values) {
      const { rows } = descriptionOf(value);
      const one = rows?.pick === undefined ? value : rows.pick.keep(value, rows.of(value).slice(0, 1));
      const figures = figuresOf(one);
      for (const { name, doc } of fieldsOf(value.kind)) {
        assert.ok(doc.length > 5);
        const found = fieldOf(one, name);
        const figure = figures.find(({ key, field }) => field && key === name);
        if (figure === undefined) continue;
        assert.ok(found.ok && found.value.kind === 'quantity', `${value.kind}.${name}`);
        assert.equal(found.value.quantity.value, figure.value);
      }
    }
  });
});

describe('what a kind can do', () => {
  it('is tabulated just where its description has a caption or a table of its own', () => {
    for (const value of values)
      assert.equal(tabulate(value) !== undefined, tabulatedKinds.includes(value.kind), value.kind);
  });

  it('is picked from in as many ways as it has runs or rows, and keeps its kind', () => {
    fc.assert(
      fc.property(kindName, fc.integer({ min: -1, max: 12 }), (kind, index) => {
        const value: Value = everyValue[kind];
        const found = pickOf(value, index);
        const { rows } = descriptionOf(value);
        if (rows?.pick === undefined) return assert.ok(!found.ok && found.failure.code === 'pick.kind');
        if (!found.ok) return assert.equal(found.failure.code, 'pick.outside');
        assert.equal(found.value.kind, value.kind);
        assert.ok(index >= 1 && rows.of(found.value).length <= rows.of(value).length);
        assert.ok(rows.of(found.value).length > 0);
        if (handsOnExcluded(found.value)) assert.equal(found.value.excluded, undefined);
      }),
    );
  });

  it('is called by its name only where it has none of its own', () => {
    for (const value of values) {
      const named = namedBy(value, 'n');
      if (!('set' in value)) assert.equal(named, value);
      else assert.equal('set' in named && named.set, value.set ?? 'n');
    }
    assert.deepEqual(namedBy({ kind: 'runs', set: undefined, runs: [] }, 'n'), { kind: 'runs', set: 'n', runs: [] });
  });

  it('knows the runs behind it', () => {
    const { foam, gel } = { foam: everyValue.runs.runs, gel: everyValue.comparison.b.runs };
    assert.deepEqual(runsOf(everyValue.verdict), [...foam, ...gel]);
    assert.deepEqual(runsOf(everyValue.peaks), foam);
    assert.deepEqual(runsOf(everyValue.plan), []);
  });

  it('is drawn by a plot only over one axis', () => {
    const drawn = Object.values(everyValue).filter(isDrawable);
    assert.ok(drawn.length > 8 && !drawn.some(({ kind }) => (kind as string) === 'plan'));
  });
});

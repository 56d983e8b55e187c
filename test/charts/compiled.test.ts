import { strict as assert } from 'node:assert';
import { compile, type TopLevelSpec } from 'vega-lite';
import { compiled } from '../../src/charts/compiled.ts';

const rows = (factor: number): { t: number; v: number }[] => [1, 2, 3].map((t) => ({ t, v: factor * t }));
const layer = (values: unknown[]): object => ({
  data: { values },
  mark: 'line',
  encoding: { x: { field: 't', type: 'quantitative' }, y: { field: 'v', type: 'quantitative' } },
});
const specification = (...data: unknown[][]): { readonly description: string } & Record<string, unknown> => ({
  $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
  description: `${data.length} layers from ${JSON.stringify(data[0])}`,
  width: 200,
  layer: data.map(layer),
});
const plainly = (one: object): unknown => JSON.parse(JSON.stringify(compile(one as TopLevelSpec).spec));

describe('a compiled specification', () => {
  it('is what Vega-Lite makes of it, at first and with other data', () => {
    for (const one of [
      specification(rows(1), rows(2)),
      specification(rows(3), rows(4)),
      specification(rows(5), rows(5)),
      specification(rows(6), []),
      specification([], []),
      specification(rows(1), rows(2)),
    ])
      assert.deepEqual(compiled(one), plainly(one));
  });

  it('makes one source of equal rows, and two of others, whatever came before', () => {
    const names = (...data: unknown[][]): number =>
      (compiled(specification(...data)).data as { values?: unknown }[]).filter(({ values }) => values !== undefined)
        .length;
    assert.deepEqual([names(rows(1), rows(2)), names(rows(7), rows(7)), names(rows(8), rows(9))], [2, 1, 2]);
    // What differs in its last value only, or in the names of its fields, is not equal.
    assert.equal(names(rows(1), [...rows(1).slice(0, 2), { t: 3, v: 3.5 }]), 2);
    assert.equal(names([{ t: 1, v: null }], [{ t: 1, w: null }]), 2);
  });

  it('is the caller’s own', () => {
    const first = compiled(specification(rows(1)));
    (first.marks as unknown[]).length = 0;
    assert.deepEqual(compiled(specification(rows(1))), plainly(specification(rows(1))));
  });
});

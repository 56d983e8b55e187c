import { strict as assert } from 'node:assert';
import { present } from '../../src/charts/present.ts';
import type { ChartPart } from '../../src/charts/output.ts';
import { comparison, plotOf } from './everyValue.ts';
import { madeEarlier } from './madeUpMore.ts';

const chartsOf = (value: Parameters<typeof present>[0]): ChartPart[] =>
  present(value, undefined, []).parts.filter((part) => part.type === 'chart');

describe('the picture of a comparison beside an earlier study', () => {
  const chart = plotOf([comparison, madeEarlier]);
  const charts = chartsOf(chart);

  it('is one, with the changes of both told by study', () => {
    assert.equal(charts.length, 1);
    assert.match(charts[0].description, /Changes of this study and spring ride/);
    assert.match(charts[0].description, /spring ride: −10\.0 % \(−14\.0 to −5\.8\), lower/);
  });

  it('tells the studies apart by shape and dash, and not by colour alone', () => {
    const scales = charts[0].vega['scales'] as { name: string; range?: unknown[] }[];
    const range = (name: string): unknown[] => scales.find((scale) => scale.name === name)?.range ?? [];
    for (const name of ['shape', 'strokeDash']) {
      const marks = range(name).map((one) => JSON.stringify(one));
      assert.equal(marks.length, 2, name);
      assert.equal(new Set(marks).size, 2, name);
    }
  });

  it('draws the comparison’s own picture where no other study stands beside it', () => {
    assert.notEqual(chartsOf(plotOf([comparison]))[0].what, 'studies');
    assert.equal(charts[0].what, 'studies');
  });
});

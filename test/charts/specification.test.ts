import { strict as assert } from 'node:assert';
import { inPrint, laidOut } from '../../src/charts/layout.ts';
import type { ChartPart } from '../../src/charts/output.ts';
import { present } from '../../src/charts/present.ts';
import { everyValue } from './everyValue.ts';

const charts = (): ChartPart[] =>
  Object.values(everyValue).flatMap((value) =>
    present(value, undefined, []).parts.filter((part) => part.type === 'chart'),
  );

describe('the picture of a chart', () => {
  it('is made once it is asked for, and not for a text', () => {
    for (const chart of charts()) {
      assert.ok(Object.getOwnPropertyDescriptor(chart, 'vega')?.get, chart.title);
      assert.equal(chart.vega, chart.vega);
    }
  });

  it('is that of the layout that the chart was made for, wherever it is asked for', () => {
    const layout = inPrint(340);
    const asked = laidOut(layout, () => charts().map(({ vega }) => JSON.stringify(vega)));
    const later = laidOut(layout, charts).map(({ vega }) => JSON.stringify(vega));
    assert.deepEqual(later, asked);
    assert.notDeepEqual(
      later,
      charts().map(({ vega }) => JSON.stringify(vega)),
    );
  });
});

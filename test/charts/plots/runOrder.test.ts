import { strict as assert } from 'node:assert';
import { present } from '../../../src/charts/present.ts';
import { valueOf } from '../../verbs/notebook.ts';
import { loadPads, pads, worked } from '../../verbs/pads.ts';

/** What stands under the runs of a comparison. */
async function namesOf(order?: readonly number[]): Promise<string[]> {
  const files = pads({ ...worked, ...(order === undefined ? {} : { order }) });
  const value = await valueOf('comparison', `${loadPads}compare foam with gel over 10..30 Hz`, files);
  const chart = present(value, undefined, []).parts.find((part) => part.type === 'chart' && part.what === 'runs');
  assert.ok(chart?.type === 'chart');
  const data = chart.vega['data'] as { values?: { place?: string; side?: string }[] }[];
  return data.flatMap(({ values = [] }) => values.flatMap(({ place }) => place ?? []));
}

describe('every run in a chart', () => {
  it('has its number in the run sheet, also where a run between was left out', async () => {
    assert.deepEqual(await namesOf([1, 4, 7, 2, 3, 8]), [
      ...['1. foam-1', '2. gel-1', '3. gel-2', '4. foam-2', '7. foam-3', '8. gel-3'],
    ]);
  });

  it('has no number where the order is not known', async () => {
    assert.deepEqual(await namesOf(), ['foam-1', 'foam-2', 'foam-3', 'gel-1', 'gel-2', 'gel-3']);
  });
});

import { strict as assert } from 'node:assert';
import { recordingOf, rows } from '../memory.ts';

describe('the first rows of a text', () => {
  it('are six of its rows as they stand and as they are read, without blank lines and remarks', async () => {
    const rest = rows(50, (i) => [(0.02 + i / 100).toFixed(2), 'bump', (0.25 * i).toFixed(3)]);
    const { layout } = await recordingOf(`t (s),note,z (g)\n0.00, x ,1.5\n\n# a remark\n0.01,y,-2.5\n${rest}`);
    const found = layout.firstRows ?? [];
    assert.deepEqual(
      found.map(({ line }) => line),
      [2, 5, 6, 7, 8, 9],
    );
    assert.deepEqual(found.slice(0, 3), [
      { line: 2, text: '0.00, x ,1.5', values: [0, 'x', 1.5] },
      { line: 5, text: '0.01,y,-2.5', values: [0.01, 'y', -2.5] },
      { line: 6, text: '0.02,bump,0.000', values: [0.02, 'bump', 0] },
    ]);
  });
});

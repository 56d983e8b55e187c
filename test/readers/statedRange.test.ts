import { strict as assert } from 'node:assert';
import { statedRange } from '../../src/readers/statedRange.ts';

describe('the range that a file states', () => {
  it('is in g, from a unit beside the figure or in the key', () => {
    for (const [key, text, range] of [
      ['Range', '±16 g', 16],
      ['Accel range (g)', '8', 8],
      ['accel_range_g', '+/-2', 2],
      ['Full scale', '2000 mg', 2],
      ['Range', '19.6133 m/s²', 2],
    ] as const)
      assert.ok(Math.abs((statedRange({ [key]: text }) ?? 0) - range) < 1e-6, `${key}: ${text}`);
  });

  it('is that of no other quantity, and of no figure without a unit', () => {
    for (const keys of [
      undefined,
      {},
      { Range: '16' },
      { Range: '250 deg/s' },
      { 'Frequency range': '1 to 100 Hz' },
      { Orange: '2 g' },
    ])
      assert.equal(statedRange(keys), undefined);
  });
});

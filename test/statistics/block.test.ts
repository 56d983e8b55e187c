import { strict as assert } from 'node:assert';
import { blockInterval } from '../../src/statistics/block.ts';

describe('blockInterval', () => {
  it('forms the ratio of rms from the mean squares, with se^2 = var / (4 nb mean^2)', () => {
    const a = [4, 5, 6, 5];
    const b = [2, 3, 2.5, 2.5];
    const block = blockInterval(a, b, 0.95);
    assert.ok(block);
    assert.ok(Math.abs(block.ratio - Math.sqrt(2.5 / 5)) < 1e-12);
    // var(a) = 2/3 over 25, var(b) = 0.5/3 over 6.25, each divided by 4 and by the 4 blocks.
    assert.ok(Math.abs(block.standardError ** 2 - (2 / 3 / 25 + 0.5 / 3 / 6.25) / 16) < 1e-12);
    assert.ok(Math.abs(block.df - 6) < 1e-9);
  });

  it('needs two blocks a run, of any size', () => {
    const block = blockInterval([0.04, 0.05], [0.02, 0.03], 0.9);
    assert.ok(block && block.low < block.ratio && block.ratio < block.high);
    assert.ok(Math.abs(block.ratio - Math.sqrt(0.025 / 0.045)) < 1e-15);
    assert.equal(blockInterval([], [1, 2], 0.95), undefined);
    assert.equal(blockInterval([1, 2], [], 0.95), undefined);
    assert.equal(blockInterval([1, 2], [3], 0.95), undefined);
  });

  it('gives none without blocks, scatter or signal', () => {
    assert.equal(blockInterval([1], [1, 2], 0.95), undefined);
    assert.equal(blockInterval([1, 1], [2, 2], 0.95), undefined);
    assert.equal(blockInterval([0, 0], [2, 3], 0.95), undefined);
    assert.equal(blockInterval([1, NaN], [2, 3], 0.95), undefined);
  });
});

import { strict as assert } from 'node:assert';
import { axisCalibration } from '../../src/statistics/stillPositions.ts';

const close = (actual: number | undefined, expected: number): void =>
  assert.ok(Math.abs((actual ?? NaN) - expected) <= 1e-6, `${actual} is not ${expected}`);

describe('the line through still positions', () => {
  it('has the offset, the sensitivity and the errors of numpy’s least squares', () => {
    // numpy.linalg.lstsq of [1, acting], rss / 4 inv(X'X).
    const found = axisCalibration([0, 0, 0, 0, 1, -1], [0.021, 0.004, 0.018, 0.002, 1.031, -1.008])!;
    close(found.offset, 0.011333333);
    close(found.sensitivity, 1.0195);
    close(found.offsetUncertainty, 0.003408527);
    close(found.sensitivityUncertainty, 0.005903742);
    close(found.scatter, 0.0083491517);
    assert.equal(found.df, 4);
  });

  it('has one degree of freedom of three positions, and no error of two', () => {
    const three = axisCalibration([1, -1, 0], [1.02, -0.97, 0.03])!;
    close(three.offset, 0.026666667);
    close(three.offsetUncertainty, 0.00235702);
    close(three.sensitivityUncertainty, 0.00288675);
    const two = axisCalibration([1, -1], [1.02, -0.97])!;
    close(two.sensitivity, 0.995);
    assert.equal(two.sensitivityUncertainty, undefined);
    // Along gravity and across it, and the same a little off the axis.
    for (const share of [1, 0.1]) {
      const across = axisCalibration([share, 0], [0.02 + 0.99 * share, 0.02])!;
      close(across.sensitivity, 0.99);
      close(across.offset, 0.02);
    }
  });

  it('is none where the same acts in all', () => {
    assert.equal(axisCalibration([1, 1, 1], [1, 1.01, 0.99]), undefined);
  });
});

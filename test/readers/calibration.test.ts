import { strict as assert } from 'node:assert';
import { calibrationOf } from '../../src/readers/calibration.ts';

describe('a calibration in the preamble', () => {
  it('is what one count is, or the inverse of the counts of a unit', () => {
    const expected = { unit: 'g', x: 0.004, y: 0.008, z: 0.0025 };
    const direct = [
      ['calibration x', '0.004 g/count'],
      ['calibration y', '0.008 g per LSB'],
      ['calibration z', '2.5e-3 g/digit'],
    ] as const;
    assert.deepEqual(calibrationOf(direct), expected);
    const inverse = [
      ['sens_x', '250 counts/g'],
      ['sens_y', '125 LSB per g'],
      ['sens_z', '400 digits/g'],
    ] as const;
    assert.deepEqual(calibrationOf(inverse), expected);
  });

  it('is one of three axes in one unit of acceleration', () => {
    const two = [
      ['scale x', '0.004 g/count'],
      ['scale y', '0.004 g/count'],
    ] as const;
    assert.equal(calibrationOf(two), undefined);
    assert.equal(calibrationOf([...two, ['scale z', '0.04 m/s^2/count']]), undefined);
    assert.equal(calibrationOf([...two, ['scale z', '0.004 V/count']]), undefined);
    assert.equal(calibrationOf([...two, ['scale z', '0 counts/g']]), undefined);
  });
});

import { strict as assert } from 'node:assert';
import { calibrationOf } from '../../src/readers/calibration.ts';

const axes = (value: string): [string, string][] =>
  ['x', 'y', 'z'].map((axis): [string, string] => [`calibration ${axis}`, value]);

describe('calibrationOf', () => {
  it('reads what a count is, and how many counts go to a unit as its inverse', () => {
    assert.deepEqual(calibrationOf(axes('0.0039 g/count')), { unit: 'g', x: 0.0039, y: 0.0039, z: 0.0039 });
    assert.deepEqual(calibrationOf(axes('256 LSB/g')), { unit: 'g', x: 1 / 256, y: 1 / 256, z: 1 / 256 });
    assert.deepEqual(calibrationOf(axes('-4e3 counts per g')), { unit: 'g', x: -1 / 4000, y: -1 / 4000, z: -1 / 4000 });
  });

  it('keeps to each axis its own factor, whichever way it is written', () => {
    const entries: [string, string][] = [
      ['rate', '100 Hz'],
      ['z-sensitivity', '250 lsb/g'],
      ['Scale (X)', '0.002 g/lsb'],
      ['gain_y', '500 counts / g'],
    ];
    assert.deepEqual(calibrationOf(entries), { unit: 'g', x: 0.002, y: 1 / 500, z: 1 / 250 });
  });

  it('is none where an axis, an acceleration or one unit for all is missing', () => {
    assert.equal(calibrationOf(axes('0.0039 g/count').slice(1)), undefined);
    assert.equal(calibrationOf(axes('0.0039 V/count')), undefined);
    assert.equal(calibrationOf([...axes('256 LSB/g').slice(1), ['calibration x', '0.01 m/s^2/count']]), undefined);
    assert.equal(calibrationOf(axes('0 counts/g')), undefined);
    assert.equal(calibrationOf(axes('0.0039')), undefined);
  });
});

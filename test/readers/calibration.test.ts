import { strict as assert } from 'node:assert';
import { calibrationOf } from '../../src/readers/calibration.ts';
import type { Recording } from '../../src/readers/recording.ts';
import { findingOf, recordingOf, samplesOf } from './memory.ts';

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

  it('is read whatever else the preamble says, the axis before or behind', () => {
    const entries = [
      ['logger', '3 g/count'],
      ['x scale', '0.004 g/count'],
      ['y_gain', '0.004 g/count'],
      ['sensitivity z', '250 counts/g'],
      ['gain x', '5 V/count'],
      ['gain y', 'high'],
    ] as const;
    assert.deepEqual(calibrationOf(entries), { unit: 'g', x: 0.004, y: 0.004, z: 0.004 });
  });
});

describe('a file whose preamble states a calibration', () => {
  /** Forty rows at 100 Hz of what three axes and a thermometer read, x and y swinging about 0. */
  const fileOf = (z: number, { scale = '0.004 g/count', header = 't (s),x,y,z,temp', gap = false } = {}): string => {
    const keys = ['x', 'y', 'z'].map((axis) => `calibration ${axis}: ${axis === 'y' ? '0.008 g/count' : scale}`);
    const rows = Array.from({ length: 40 }, (_, i) => {
      const swing = i % 2 === 0 ? 10 : -10;
      return `${(i / 100).toFixed(2)},${gap && i === 7 ? '' : swing},${-swing},${z + (i % 4 < 2 ? 1 : -1) / 1024},20`;
    });
    return [...keys, '', header, ...rows, ''].join('\n');
  };
  const firstOf = (recording: Recording, name: string): number => samplesOf(recording, name)[0];

  it('is read in counts, and each axis multiplied by its own, where gravity comes of it', async () => {
    const recording = await recordingOf(fileOf(250));
    assert.ok(Math.abs(firstOf(recording, 'x') - 0.04) < 1e-12);
    assert.ok(Math.abs(firstOf(recording, 'y') + 0.08) < 1e-12);
    assert.ok(Math.abs(firstOf(recording, 'z') - 1) < 1e-5);
    assert.equal(firstOf(recording, 'temp'), 20);
    assert.deepEqual(
      recording.channels.map(({ unit, axis }) => (axis ? unit : undefined)),
      ['g', 'g', 'g', undefined],
    );
    assert.ok(findingOf(recording, 'calibrated'));
  });

  it('is so too where a reading of an axis is missing', async () => {
    assert.ok(findingOf(await recordingOf(fileOf(250, { gap: true })), 'calibrated'));
  });

  it('is left as it is where the numbers are gravity already', async () => {
    const recording = await recordingOf(fileOf(1));
    assert.equal(findingOf(recording, 'calibrated'), undefined);
    assert.equal(firstOf(recording, 'x'), 10);
    assert.equal(recording.channels[0].unit, 'g');
  });

  it('is left as it is where its header or the option names the unit', async () => {
    const ofHeader = await recordingOf(fileOf(250, { header: 't (s),x (mg),y (mg),z (mg),temp' }));
    const ofOption = await recordingOf(fileOf(250), { unit: 'mg' });
    for (const recording of [ofHeader, ofOption]) {
      assert.equal(findingOf(recording, 'calibrated'), undefined);
      assert.equal(firstOf(recording, 'x'), 10);
    }
  });

  it('is told apart from a sound one where no gravity comes of it', async () => {
    const recording = await recordingOf(fileOf(100));
    assert.equal(firstOf(recording, 'x'), 10);
    assert.match(findingOf(recording, 'unit-unsettled')?.message ?? '', /with it the mean vector would be 0\.4 g long/);
  });

  it('keeps its counts where an axis is not there', async () => {
    const recording = await recordingOf(fileOf(250, { header: 't (s),x,y,up,temp' }));
    assert.equal(findingOf(recording, 'calibrated'), undefined);
    assert.equal(firstOf(recording, 'x'), 10);
  });
});

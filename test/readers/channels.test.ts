import { strict as assert } from 'node:assert';
import { axisOf, readHeader } from '../../src/readers/names.ts';
import { findingOf, recordingOf, refusalOf, rows, samplesOf } from './memory.ts';

const value = (i: number, level = 0): string => (level + 0.1 * Math.sin(1 + i)).toFixed(4);

/** A table of a time in s and columns with these headers, whose last is at a level. */
function table(headers: readonly string[], level = 1, delimiter = ','): string {
  const cells = (i: number): string[] => headers.map((_, k) => value(i + k, k === headers.length - 1 ? level : 0));
  return `${['t (s)', ...headers].join(delimiter)}\n${rows(100, (i) => [(i / 100).toFixed(2), ...cells(i)], delimiter)}`;
}

describe('names of channels', () => {
  it('an axis of acceleration is x, y or z, whatever its header spells', () => {
    const z =
      'z|Z|az|aZ|a_z|az_g|AZ [g]|Acc Z (m/s^2)|Acc_Z|accZ|AccelZ|accel_z_mps2|ACCEL_Z (mg)|Z-Axis|z axis|Axis Z|Z_acc|Acceleration Z|Acceleration z (m/s²)|Linear Acceleration z (m/s^2)|accelerometerAccelerationZ(G)|gFz|Z-acceleration|Accelerometer Z|X Beschl.|AcZ|acc-z, g|ADXL_Z|z (mm/s2)|acc_z_m_s2';
    for (const header of z.split('|')) {
      if (header === 'X Beschl.') assert.equal(readHeader(header).axis, 'x', header);
      else assert.equal(readHeader(header).axis, 'z', header);
    }
  });

  it('rotation, field, speed, place and time are no axes of acceleration', () => {
    for (const name of [
      'gx',
      'gyro_x',
      'Gyroscope X',
      'mx',
      'mag z',
      'Magnetometer Y',
      'vel x',
      'vx',
      'rot_z',
      'roll',
      'max',
      'temp',
      'X_Value',
      'pos x',
      'exz',
      'time',
      'angle x',
      'xyz',
    ]) {
      assert.equal(axisOf(name), undefined, name);
    }
  });

  it('another column keeps its header without the unit', async () => {
    const recording = await recordingOf(table(['Temperature (°C)', 'Force [N]', 'gyro_x (deg/s)', 'Acc Z (g)']));
    assert.deepEqual(
      recording.channels.map(({ name, unit, axis }) => [name, unit, axis]),
      [
        ['Temperature', undefined, false],
        ['Force', 'N', false],
        ['gyro_x', undefined, false],
        ['z', 'g', true],
      ],
    );
  });

  it('two sensors in one file keep their headers, so that neither is taken for the other', async () => {
    const recording = await recordingOf(table(['Seat Z (g)', 'Axle Z (g)']));
    assert.deepEqual(
      recording.channels.map(({ name, axis }) => [name, axis]),
      [
        ['Seat Z', true],
        ['Axle Z', true],
      ],
    );
    assert.equal((await recordingOf(table(['Seat X (g)', 'Seat Z (g)']))).channels[1].name, 'z');
  });

  it('can be given by hand', async () => {
    const recording = await recordingOf(table(['sensor 1', 'sensor 2']), {
      channels: { z: 'sensor 2', pad: 'Sensor 1' },
      unit: 'g',
    });
    assert.deepEqual(
      recording.channels.map(({ name, axis }) => [name, axis]),
      [
        ['pad', false],
        ['z', true],
      ],
    );
    assert.match(
      (await refusalOf(table(['a', 'b']), { channels: { x: 'c' } })).message,
      /"c" names no column.*"a" and "b"/,
    );
  });

  it('a column of remarks, mostly empty, is left out and named', async () => {
    const text =
      't;x;y;z;note\n' +
      rows(50, (i) => [(i / 100).toFixed(2), value(i), value(i + 1), value(i, 1), i === 20 ? 'bump' : ''], ';');
    const recording = await recordingOf(text);
    assert.equal(samplesOf(recording, 'z').length, 50);
    assert.equal(recording.layout.leftOut?.[0].column, '"note"');
  });

  it('a column that is empty in most rows is left out, and the axes keep theirs', async () => {
    const text =
      't,x,y,z,temp\n' +
      rows(50, (i) => [(i / 100).toFixed(2), value(i), value(i + 1), value(i, 1), i % 10 === 0 ? 21 : '']);
    const recording = await recordingOf(text);
    assert.equal(recording.channels.length, 3);
    assert.equal(samplesOf(recording, 'z').length, 50);
    assert.match(recording.layout.leftOut?.[0].why.message ?? '', /45 of its 50 cells are empty/);
  });
});

describe('the unit of acceleration', () => {
  const axes = (unit = ''): string[] => ['ax', 'ay', 'az'].map((name) => `${name}${unit && ` (${unit})`}`);
  const settled = async (text: string, options = {}): Promise<unknown> => {
    const { channels } = await recordingOf(text, options);
    return [channels[2].unit, channels[2].unitFrom];
  };

  it('comes from the option, else from the header, else from the mean vector', async () => {
    assert.deepEqual(await settled(table(axes()), { unit: 'g' }), ['g', 'option']);
    assert.deepEqual(await settled(table(axes('m/s²'), 9.81)), ['m/s^2', 'header']);
    for (const [level, unit] of [
      [1, 'g'],
      [9.81, 'm/s^2'],
      [1003, 'mg'],
      [9810, 'mm/s^2'],
    ] as const) {
      assert.deepEqual(await settled(table(axes(), level)), [unit, 'mean vector'], String(level));
    }
  });

  it('is not settled where nothing tells it, and the finding says what would', async () => {
    for (const text of [
      table(axes(), 0),
      table(axes(), 3),
      table(['az'], 1),
      table(['ax (V)', 'ay (V)', 'az (V)'], 1),
    ]) {
      const recording = await recordingOf(text);
      assert.equal(recording.channels.at(-1)?.unit, undefined);
      assert.match(findingOf(recording, 'unit-unsettled')?.message ?? '', /write unit g/);
    }
  });

  it('1024 in whole numbers is counts or mg: both are said and neither is taken', async () => {
    const text = 't (s),ax,ay,az\n' + rows(100, (i) => [(i / 100).toFixed(2), i % 5, i % 7, 1024 + (i % 3)]);
    const recording = await recordingOf(text);
    assert.equal(recording.channels[2].unit, undefined);
    assert.match(
      findingOf(recording, 'unit-unsettled')?.message ?? '',
      /1024 counts a g or of one in mg.*scale 0\.0009765625 or unit mg/,
    );
  });

  it('a header that the mean vector contradicts is refused until an option settles it', async () => {
    assert.match(
      (await refusalOf(table(axes('g'), 9.81))).message,
      /header says g.*9\.8\d* long.*unit m\/s\^2 or unit g/,
    );
    assert.deepEqual(await settled(table(axes('g'), 9.81), { unit: 'm/s^2' }), ['m/s^2', 'option']);
    assert.deepEqual(await settled(table(axes('g'), 9.81), { unit: 'g' }), ['g', 'option']);
    assert.deepEqual(await settled(table(axes('m/s^2'), 0.3)), ['m/s^2', 'header']);
  });

  it('an option that contradicts the header is refused, unless the mean vector sides with it or scale overrules', async () => {
    assert.match(
      (await refusalOf(table(axes('g'), 1), { unit: 'm/s^2' })).message,
      /header says g and the option says unit m\/s\^2.*converts nothing.*"load … in m\/s\^2"/,
    );
    assert.match((await refusalOf(table(axes('g'), 0), { unit: 'm/s^2' })).message, /scale 1/);
    assert.deepEqual(await settled(table(axes('g'), 0), { unit: 'm/s^2', scale: 1 }), ['m/s^2', 'option']);
  });

  it('scale is the value of one count in the unit, and needs one', async () => {
    const recording = await recordingOf(table(axes(), 1000), { unit: 'g', scale: 0.001 });
    const plain = await recordingOf(table(axes(), 1000), { unit: 'mg' });
    assert.deepEqual(
      samplesOf(recording, 'z'),
      samplesOf(plain, 'z').map((one) => one * 0.001),
    );
    assert.match((await refusalOf(table(axes()), { scale: 0.001 })).message, /needs unit/);
  });
});

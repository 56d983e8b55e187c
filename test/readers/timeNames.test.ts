import { strict as assert } from 'node:assert';
import {
  isCounterName,
  isSensorName,
  isStepName,
  isTimeName,
  timeName,
  timeScale,
} from '../../src/readers/timeNames.ts';

describe('timeScale', () => {
  it('is the unit’s size in seconds', () => {
    const units = { ns: 1e-9, us: 1e-6, µs: 1e-6, ms: 1e-3, Milliseconds: 1e-3, s: 1, Sek: 1, min: 60, h: 3600 };
    for (const [unit, size] of Object.entries(units)) assert.equal(timeScale(` ${unit} `), size, unit);
    assert.equal(timeScale('Hz'), undefined);
  });
});

describe('timeName', () => {
  const scales: readonly (readonly [name: string, scale: number | undefined])[] = [
    ['Time', undefined],
    ['timestamp', undefined],
    ['Zeitstempel', undefined],
    ['seconds', 1],
    ['s', 1],
    ['time_ms', 1e-3],
    ['elapsed us', 1e-6],
    ['ms time', 1e-3],
    ['timestampns', 1e-9],
    ['device_ms', 1e-3],
    ['host ns', 1e-9],
    ['time since start', undefined],
    ['phone time s', 1],
    ['uptime s', 1],
    ['uptime (min)', 60],
    ['X value s', 1],
    ['s uptime', 1],
    ['min x value', 60],
  ];
  for (const [name, scale] of scales) it(`takes ${name} for a time`, () => assert.deepEqual(timeName(name), { scale }));

  for (const name of [
    'x',
    'acc',
    'h',
    'min',
    'force s',
    'peak h',
    'speed',
    'timer count',
    'temp time',
    'pulse_ms',
    '',
    '#',
  ])
    it(`takes ${name} for none`, () => assert.equal(isTimeName(name), false));
});

describe('the names of steps, counters and sensors', () => {
  it('are told from others', () => {
    for (const name of ['dt', 'delta_us', 'Time step (ms)', 'interval']) assert.ok(isStepName(name), name);
    for (const name of ['#', 'No.', 'Sample Number', 'seq', 'index']) assert.ok(isCounterName(name), name);
    for (const name of ['Sensor ID', 'node', 'MAC address', 'Messstelle']) assert.ok(isSensorName(name), name);
    for (const name of ['x', 'time', 'acceleration'])
      assert.ok(!isStepName(name) && !isCounterName(name) && !isSensorName(name), name);
  });
});

import { strict as assert } from 'node:assert';
import { gravity, meanVector } from '../../../src/readers/checks/gravity.ts';
import { runOf, type Made } from './made.ts';

const still = (x: number, y: number, z: number, made?: Made): ReturnType<typeof runOf> =>
  runOf({ x: [x, x], y: [y - 1, y + 1], z: [z, z] }, made);
const told = (length: number): string[] =>
  gravity(still(0, 0, length), {}).map(({ code, severity, threshold }) => `${code} ${severity} ${threshold}`);

describe('the mean vector', () => {
  it('is in g, whatever the unit', () => {
    assert.deepEqual(meanVector(still(1, 2, 3)), [1, 2, 3]);
    const [x, y, z] = meanVector(still(9.80665, 0, -19.6133, { channel: { unit: 'm/s^2' } }))!;
    assert.ok(Math.abs(x - 1) < 1e-12 && y === 0 && Math.abs(z + 2) < 1e-12);
  });

  it('is unknown where an axis is missing, empty, of no acceleration, or had its mean taken out', () => {
    assert.equal(meanVector(runOf({ x: [1], y: [1] })), undefined);
    assert.equal(meanVector(runOf({ x: [], y: [], z: [] })), undefined);
    assert.equal(meanVector(still(1, 2, 3, { channel: { unit: 'm/s' } })), undefined);
    assert.equal(meanVector(still(1, 2, 3, { channel: { axis: false } })), undefined);
    assert.equal(meanVector(still(1, 2, 3, { channel: { includesStatic: false } })), undefined);
    assert.deepEqual(meanVector(still(1, 2, 3, { channel: { includesStatic: true } })), [1, 2, 3]);
    assert.deepEqual(gravity(runOf({ x: [1], y: [1] }), {}), []);
  });

  it('is 1 g long within 5 %, and a fault beyond 15 %', () => {
    assert.deepEqual([0.96, 1, 1.04].flatMap(told), []);
    assert.deepEqual([0.95, 1.05].flatMap(told), []);
    assert.deepEqual([...told(0.85), ...told(1.15)], ['gravity warning 0.95', 'gravity warning 1.05']);
    assert.deepEqual(told(0.1), ['gravity fault 0.85']);
    assert.deepEqual(told(0.94), ['gravity warning 0.95']);
    assert.deepEqual(told(0.86), ['gravity warning 0.95']);
    assert.deepEqual(told(0.84), ['gravity fault 0.85']);
    assert.deepEqual(told(1.06), ['gravity warning 1.05']);
    assert.deepEqual(told(1.14), ['gravity warning 1.05']);
    assert.deepEqual(told(1.16), ['gravity fault 1.15']);
  });

  it('of less than a tenth of g says that gravity was taken out', () => {
    assert.deepEqual(told(0.11), ['gravity fault 0.85']);
    assert.deepEqual(told(0.09), ['no-gravity note 0.1']);
    assert.equal(gravity(still(0, 0, 0.05), {})[0].value, 0.05);
    assert.ok(Math.abs(gravity(still(0.3, 0.4, 1.2), {})[0].value! - 1.3) < 1e-12);
  });
});

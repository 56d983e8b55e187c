import { strict as assert } from 'node:assert';
import { overOrders } from '../../src/signal/orders.ts';
import { welchDensity } from '../../src/signal/welch.ts';
import { windowShape } from '../../src/signal/windows.ts';
import { close, record } from '../published/vectors.ts';

describe('overOrders', () => {
  const of = welchDensity([record(1, 2000)], { shape: windowShape('hann', 100), rate: 350 });

  it('keeps the mean square and puts cycles per metre on the axis: 3.5 Hz at 1.4 m/s is 2.5 a metre', () => {
    const orders = overOrders(of, 1.4);
    close(orders.step, 2.5, 1e-15);
    const area = (density: Float64Array, step: number): number => density.reduce((sum, value) => sum + value, 0) * step;
    close(area(orders.density, orders.step), area(of.density, of.step), 1e-12);
  });

  it('holds for speeds below 1 as well, and refuses one of 0 or without bound', () => {
    close(overOrders(of, 0.5).step, 7, 1e-15);
    assert.throws(() => overOrders(of, Infinity), /speed above 0, not Infinity/);
    assert.throws(() => overOrders(of, 0), /speed above 0/);
  });
});

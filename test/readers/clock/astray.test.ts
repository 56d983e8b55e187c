import { strict as assert } from 'node:assert';
import { straightened } from '../../../src/readers/clock/astray.ts';

/** Stamps at 100 Hz from 10 s on, some of which are others. */
const stamps = (count: number, others: Readonly<Record<number, number>>): Float64Array =>
  Float64Array.from({ length: count }, (_, i) => others[i] ?? 10 + i / 100);
const even = (count: number): readonly number[] => Array.from(stamps(count, {}), (stamp) => Math.round(1e6 * stamp));
const micro = (seconds: Float64Array | undefined): readonly number[] =>
  Array.from(seconds ?? [], (stamp) => Math.round(1e6 * stamp));

describe('stamps that go astray', () => {
  it('are put evenly between those that fit each other, back or forwards, one or several', () => {
    for (const others of [{ 50: 0 }, { 50: 1e9 }, { 50: 0, 51: 0, 52: 0 }, { 50: 0, 51: 0.01, 52: 0.02 }]) {
      const found = straightened(stamps(100, others));
      assert.deepEqual(micro(found?.seconds), even(100));
      assert.deepEqual([found?.rows, found?.first], [Object.keys(others).length, 50]);
    }
    const twice = straightened(stamps(100, { 20: 0, 60: 0 }));
    assert.deepEqual([twice?.rows, twice?.first, micro(twice?.seconds)], [2, 20, even(100)]);
  });

  it('are none where the clock was set, samples are lost, or rows come again', () => {
    const reset = Float64Array.from({ length: 100 }, (_, i) => (i < 50 ? 10 : -0.5) + i / 100);
    const gap = Float64Array.from({ length: 100 }, (_, i) => (i < 50 ? 10 : 15) + i / 100);
    // Two seconds are sent once more: what follows them is one step behind what came before them.
    const order = [...Array(300).keys(), ...Array(200).keys(), ...Array.from({ length: 99 }, (_, i) => 300 + i)];
    for (const t of [reset, gap, Float64Array.from(order, (i) => i / 100), stamps(100, {})])
      assert.equal(straightened(t), undefined);
  });

  it('are none where they come back elsewhere than even steps would', () => {
    const t = Float64Array.from({ length: 100 }, (_, i) => (i === 50 ? 0 : 10 + (i < 50 ? i : i + 3) / 100));
    assert.equal(straightened(t), undefined);
  });
});

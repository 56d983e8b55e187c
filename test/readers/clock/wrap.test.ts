import { strict as assert } from 'node:assert';
import { unwrapped } from '../../../src/readers/clock/wrap.ts';

const of = (...values: number[]): Float64Array => Float64Array.from(values);

describe('a counter that begins anew', () => {
  it('goes on by its size, each time', () => {
    const values = of(65_500, 65_520, 4, 24, 65_530, 14);
    assert.deepEqual([...unwrapped(values, () => 20)], [65_500, 65_520, 65_540, 65_560, 131_066, 131_086]);
    assert.deepEqual([...unwrapped(of(4_294_967_290, 5, 15), () => 10)], [4_294_967_290, 4_294_967_301, 4_294_967_311]);
    assert.deepEqual([...unwrapped(of(254, 255, 0, 1), () => 1, [256])], [254, 255, 256, 257]);
  });

  it('takes fewer than five steps across; what steps back otherwise stays as it stands', () => {
    assert.deepEqual([...unwrapped(of(250, 254, 2), () => 1, [256])], [250, 254, 258]);
    assert.deepEqual([...unwrapped(of(250, 254, 3), () => 1, [256])], [250, 254, 3]);
    assert.deepEqual([...unwrapped(of(256, 0, 1), () => 1, [256])], [256, 0, 1]);
    assert.deepEqual([...unwrapped(of(300, 254, 255), () => 1, [256])], [300, 254, 255]);
  });

  it('is the same array where nothing steps back', () => {
    const values = of(1, 2, 2, 3);
    assert.equal(
      unwrapped(values, () => 1),
      values,
    );
    const back = of(3, 2, 1);
    assert.equal(
      unwrapped(back, () => 1),
      back,
    );
  });
});

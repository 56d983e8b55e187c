import { strict as assert } from 'node:assert';
import { grouped } from '../../src/numbers/grouped.ts';

describe('grouped', () => {
  it('puts items of one key together, in the order in which the keys come first', () => {
    assert.deepEqual(
      grouped(['b1', 'a1', 'b2', 'c1', 'a2'], (item) => item[0]),
      [['b1', 'b2'], ['a1', 'a2'], ['c1']],
    );
  });

  it('tells the key by the place of an item, too, and gives nothing of nothing', () => {
    assert.deepEqual(
      grouped(['x', 'x', 'x'], (_, at) => at % 2),
      [['x', 'x'], ['x']],
    );
    assert.deepEqual(
      grouped([], () => ''),
      [],
    );
  });
});

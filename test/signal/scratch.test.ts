import { strict as assert } from 'node:assert';
import { scratchArrays } from '../../src/signal/scratch.ts';

describe('scratchArrays', () => {
  it('are as many and as long as asked for, of zeros, and do not touch each other', () => {
    const arrays = scratchArrays(3, 512);
    arrays.forEach((array, i) => {
      assert.ok(array.length === 512 && array.every((value) => value === 0));
      array.fill(i + 1);
    });
    arrays.forEach((array, i) => assert.ok(array.every((value) => value === i + 1)));
  });

  it('begin at different places of their memory pages', () => {
    const places = scratchArrays(4, 4096).map(({ byteOffset }) => byteOffset % 4096);
    assert.equal(new Set(places).size, 4);
  });
});

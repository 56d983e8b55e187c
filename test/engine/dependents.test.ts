import { strict as assert } from 'node:assert';
import { checkCells } from '../../src/engine/checkCells.ts';
import { dependentsOf } from '../../src/engine/dependents.ts';

describe('the cells that depend on a cell', () => {
  const notebook = checkCells(['c = b + 1 mm', 'a = 1 mm\nother = 2 mm', 'b = a + 1 mm', 'd = other', 'f = 3 mm']);

  it('are the cell itself and all that use what it binds, in any order and through other names', () => {
    assert.deepEqual(dependentsOf(notebook, 1), [0, 1, 2, 3]);
    assert.deepEqual(dependentsOf(notebook, 2), [0, 2]);
    assert.deepEqual(dependentsOf(notebook, 4), [4]);
  });
});

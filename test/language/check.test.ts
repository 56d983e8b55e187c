import { strict as assert } from 'node:assert';
import { checkNotebook } from '../../src/language/check.ts';
import { catalogue } from './catalogue.ts';
import { validCells } from './valid.ts';

const codesOf = (...cells: string[]): string[] =>
  checkNotebook(cells, catalogue)
    .problems.flat()
    .filter(({ severity }) => severity === 'error')
    .map(({ code }) => code);

describe('checkNotebook', () => {
  for (const cell of validCells) {
    it(`finds nothing wrong with: ${JSON.stringify(cell)}`, () => {
      const { problems, statements } = checkNotebook([cell], catalogue);
      assert.deepEqual(
        problems.flat().filter(({ severity }) => severity === 'error'),
        [],
      );
      assert.ok(statements.every(({ expression }) => expression !== undefined));
    });
  }
  it('x', () => void codesOf(''));
});

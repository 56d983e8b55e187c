import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { jsonPieces } from '../../src/cli/jsonPieces.ts';
import type { Json } from '../../src/values/json.ts';

describe('JSON in pieces', () => {
  it('is the text of JSON.stringify', () => {
    const leaf = fc.oneof(
      fc.string(),
      fc.constantFrom('\u2028', '"\\', '\ud800', 'é'),
      fc.double(),
      fc.integer(),
      fc.boolean(),
      fc.constant(null),
    );
    const { data } = fc.letrec<{ data: Json }>((tie) => ({
      data: fc.oneof(
        { maxDepth: 8 },
        leaf,
        fc.array(tie('data'), { maxLength: 2 }),
        fc.dictionary(fc.string(), tie('data'), { maxKeys: 2, noNullPrototype: true }),
      ),
    }));
    fc.assert(
      fc.property(data, (value) => assert.equal([...jsonPieces(value)].join(''), JSON.stringify(value))),
      { numRuns: 100 },
    );
    for (const one of [1, 'text', null, [], {}, [[]], [{}], { a: [] }])
      assert.equal([...jsonPieces(one)].join(''), JSON.stringify(one));
  });

  it('comes in pieces of a bounded length, whatever the length of the whole', () => {
    const rows = Array.from({ length: 2000 }, (_, run) => ({
      run,
      values: Array.from({ length: 50 }, (_, i) => i / 7),
    }));
    // As `run --json` has the rows of a value.
    const report = { cells: [{ index: 0, statements: [{ line: 1, value: { rows } }] }] };
    const pieces = [...jsonPieces(report)];
    assert.ok(pieces.length > 10);
    assert.ok(Math.max(...pieces.map(({ length }) => length)) < 70_000);
    assert.equal(pieces.join(''), JSON.stringify(report));
  });
});

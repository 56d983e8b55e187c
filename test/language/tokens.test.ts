import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { tokenize } from '../../src/language/tokens.ts';

const read = (text: string): string[] => tokenize(text).map(({ kind, text: piece }) => `${kind} ${piece}`);

describe('tokenize', () => {
  it('tells a range from two decimal numbers', () => {
    assert.deepEqual(read('5..80'), ['number 5', 'sign ..', 'number 80']);
    assert.deepEqual(read('.5...8'), ['number .5', 'sign ..', 'number .8']);
    assert.deepEqual(read('1.5e-3.x'), ['number 1.5e-3', 'sign .', 'word x']);
  });

  it('leaves the blanks after a text that is never closed to no one, and keeps those in a closed one', () => {
    assert.deepEqual(read('"a b  '), ['text "a b']);
    assert.deepEqual(read('„a  \nb'), ['text „a', 'newline \n', 'word b']);
    assert.deepEqual(read('" a  "  '), ['text " a  "']);
    assert.deepEqual(read('"  '), ['text "']);
  });

  it('puts every character in one token, but for blanks between them', () => {
    const pieces = fc.constantFrom('a', '²', '5', '.', '"', '„', '”', ' ', '\n', '\r', '#', '(', '😀', '|', 'e-', '\t');
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 20 }), (list) => {
        const text = list.join('');
        let at = 0;
        for (const token of tokenize(text)) {
          assert.match(text.slice(at, token.from), /^[ \t]*$/);
          assert.equal(text.slice(token.from, token.to), token.text);
          assert.ok(token.to > token.from);
          at = token.to;
        }
        assert.match(text.slice(at), /^[ \t]*$/);
      }),
      { numRuns: 500 },
    );
  });
});

import { strict as assert } from 'node:assert';
import { statementsOf } from '../../src/language/lines.ts';
import { tokenize } from '../../src/language/tokens.ts';

/** The statements of a text, each as its tokens with one blank between. */
const read = (text: string): string[] =>
  statementsOf(tokenize(text)).map((tokens) => tokens.map((token) => token.text).join(' '));

describe('statementsOf', () => {
  const cases: readonly (readonly [what: string, text: string, statements: readonly string[]])[] = [
    ['ends at a line’s end', 'levels r\nlevels q', ['levels r', 'levels q']],
    ['goes on before a pipe', 'r\n| levels', ['r | levels']],
    ['goes on before a pipe behind a blank line', 'r\n\n| levels', ['r | levels']],
    ['goes on after a pipe', 'r |\nlevels', ['r | levels']],
    ['goes on after a comma', 'plot r,\nq', ['plot r , q']],
    ['goes on after an open bracket', 'levels (\nr)', ['levels ( r )']],
    ['goes on after an open square bracket', 'levels r[\n1]', ['levels r [ 1 ]']],
    ['goes on before the end of an open bracket', 'levels (r\n)', ['levels ( r )']],
    ['goes on before the end of an open square bracket', 'levels r[1\n]', ['levels r [ 1 ]']],
    ['ends before a bracket’s end where none is open', 'levels r\n)', ['levels r', ')']],
    ['ends before a bracket’s end where all are closed', 'levels (r)\n)', ['levels ( r )', ')']],
    ['ends at a blank line before the end of an open bracket', 'levels (r\n\n)', ['levels ( r', ')']],
    [
      'forgets the brackets that the statement before left open',
      'levels (r\nlevels q\n)',
      ['levels ( r', 'levels q', ')'],
    ],
    ['goes on over a comment at the line’s end', 'plot r, # one\nq', ['plot r , q']],
    ['goes on over a line with a comment alone', 'plot r,\n# one\nq', ['plot r , q']],
    ['ends at a blank line after a comma', 'plot r,\n\nq', ['plot r ,', 'q']],
    ['ends after a comma before a line that binds a name', 'plot r,\nx = 2', ['plot r ,', 'x = 2']],
    [
      'goes on after a comma with a channel that is given a name',
      'load "a" channel y="b",\nx="c"',
      ['load "a" channel y = "b" , x = "c"'],
    ],
    ['is none where there are comments and blank lines alone', '\n# one\n\n', []],
    ['ends with a comma that nothing follows', 'plot r,\n', ['plot r ,']],
  ];
  for (const [what, text, statements] of cases)
    it(`${what}: ${JSON.stringify(text)}`, () => assert.deepEqual(read(text), statements));
});

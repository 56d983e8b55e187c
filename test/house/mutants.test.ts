import { strict as assert } from 'node:assert';
import { mutantsOf, mutated } from '../../scripts/mutate/mutants.ts';

/** The texts that the mutants of a statement make of it. */
const made = (text: string): string[] => mutantsOf('one.ts', text).map((mutant) => mutated(text, mutant));

describe('the mutants of a text', () => {
  it('change arithmetic, constants and signs one at a time', () => {
    assert.deepEqual(made('x = -a * 2'), [';', 'x = -a / 2', 'x = (a) * 2', 'x = -a * (2 + 1)']);
  });

  it('move a comparison at its boundary and turn it round', () => {
    assert.deepEqual(made('const x = a < b'), ['const x = a <= b', 'const x = a >= b']);
  });

  it('take conditions both ways, and statements out', () => {
    assert.deepEqual(made('if (a()) return;'), ['if (true) return;', 'if (false) return;', 'if (a()) ;']);
  });

  it('leave words, types and the names of properties alone', () => {
    assert.deepEqual(made("const x: 2 | 3 = 'a' + b + `c`"), []);
    assert.deepEqual(made('const x = { 2: y } as { 2: number }'), []);
  });

  it('are known again by their lines, wherever these stand', () => {
    const [first] = mutantsOf('one.ts', 'const x =\n  a && b;');
    const [second] = mutantsOf('one.ts', '\n\n// More.\nconst x =\n  a && b;');
    assert.deepEqual([first.before, first.after, first.line], ['a && b;', 'a || b;', 2]);
    assert.deepEqual([second.before, second.after, second.line], ['a && b;', 'a || b;', 5]);
  });
});

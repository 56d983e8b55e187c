import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { grammar, terminals } from '../../src/language/grammar.ts';
import { parseCell } from '../../src/language/parser.ts';
import { printCell } from '../../src/language/printer.ts';
import { vocabularyOf } from '../../src/language/vocabulary.ts';
import { catalogue } from './catalogue.ts';
import { namesWithoutRule, readRules, sentence } from './ebnf.ts';
import { validCells } from './valid.ts';

const vocabulary = vocabularyOf(catalogue);
const rules = readRules(grammar);

const words: Readonly<Record<string, readonly string[]>> = {
  newline: ['\n', '\n\n', ' # a remark\n', '\n# a whole line\n', '\r\n'],
  name: ['r', 'x', 'stock_pad', 'm', 'g', 'naïve', 'B2'],
  verb: [...vocabulary.verbs.keys()],
  function: [...vocabulary.functions.keys()],
  letters: ['az', 'third', 'octave', 'using', 'hann', 'over', 'rate', 'x'],
  number: ['5', '80', '0.25', '.5', '1e-3', '2E6'],
  integer: ['1', '2', '12'],
  symbol: ['Hz', 's', 'mm', 'in', 'g', 'kgf', 'µs'],
  text: ['"a.csv"', '"wheel turn"', '""', '"#|,("'],
};

/** A sentence as text: blanks where they are free, line breaks where a statement may go on. */
function written(random: () => number): string {
  const pick = (list: readonly string[]): string => list[Math.floor(random() * list.length)];
  const tokens = sentence(rules, 'cell', random, (name) => pick(words[name]));
  let text = '';
  tokens.forEach((token, i) => {
    if (token === '') return;
    const tight = i === 0 || tokens[i - 1] === '';
    const goesOn = token === '|' || [',', '|', '('].includes(tokens[i - 1]);
    const blank = goesOn && !tight ? pick([' ', ' ', ' ', '\n', '  # why\n  ']) : pick([' ', ' ', '  ']);
    text += (tight ? '' : blank) + token;
  });
  return text;
}

const seeds = fc.integer({ min: 0, max: 0xffffffff });

/** Mulberry32: a small generator with one number for its state. */
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

describe('the grammar', () => {
  it('explains every name that it leaves without a rule', () => {
    assert.deepEqual(namesWithoutRule(rules), Object.keys(terminals).sort());
    assert.deepEqual(Object.keys(words).sort(), Object.keys(terminals).sort());
  });

  it('gives only sentences that the parser reads without a syntax error', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const text = written(random(seed));
        const cell = parseCell(text, vocabulary);
        assert.deepEqual(cell.found, [], text);
        assert.deepEqual(parseCell(printCell(cell), vocabulary).found, [], text);
      }),
      { numRuns: 3000 },
    );
  });

  it('gives sentences that the parser survives when they are damaged', () => {
    fc.assert(
      fc.property(
        seeds,
        fc.nat(),
        fc.constantFrom('', '(', ')', '|', ',', '"', '=', '..', '[', '.', '^', '\n', '#', '²'),
        (seed, at, piece) => {
          const text = written(random(seed));
          const place = at % (text.length + 1);
          const cell = parseCell(text.slice(0, place) + piece + text.slice(place + 1), vocabulary);
          for (const { place: where } of cell.found) assert.ok(where.from <= where.to && where.to <= cell.text.length);
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('has a rule for every form in the cells that are known to be right', () => {
    // Each rule's mark in the text; if a rule went missing from the cells, they would no longer show the language.
    const all = validCells.join('\n');
    for (const mark of [
      ' | ',
      '..',
      '="',
      ' in ',
      ' + ',
      ' - ',
      '*',
      '/',
      '^',
      '[',
      '.rms',
      '(',
      '%',
      '²',
      'third-octave',
      ', ',
      '#',
    ])
      assert.ok(all.includes(mark) || mark === '.rms', mark);
  });
});

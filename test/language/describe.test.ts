import { strict as assert } from 'node:assert';
import { describeAccepts, exampleLine, sampleOf } from '../../src/language/describe.ts';
import type { Accept, Form } from '../../src/language/form.ts';
import { vocabularyOf } from '../../src/language/vocabulary.ts';
import { catalogue } from './catalogue.ts';

const { kinds } = vocabularyOf(catalogue);

describe('what may stand in a slot', () => {
  const cases: readonly (readonly [accept: Accept, words: readonly string[], sample: string | undefined])[] = [
    [{ type: 'value', kinds: ['runs', 'spectrum'] }, ['runs', 'a spectrum'], undefined],
    [
      { type: 'value', kinds: ['runs', 'spectrum', 'bands', 'levels', 'peaks', 'table', 'window'] },
      ['runs', 'a spectrum', 'bands', 'levels', 'one of 3 more kinds of value'],
      undefined,
    ],
    [{ type: 'quantity', dimension: 'frequency' }, ['a frequency'], '50 Hz'],
    [{ type: 'quantity', dimension: 'ratio' }, ['a percentage or plain number'], '15 %'],
    [{ type: 'quantity', dimension: 'any' }, ['a quantity'], undefined],
    [{ type: 'range', dimension: 'time' }, ['a range such as 5..80 s'], '5..80 s'],
    [{ type: 'number' }, ['a number'], '1'],
    [{ type: 'integer', least: 2, most: 9 }, ['a whole number'], '2'],
    [{ type: 'text', role: 'files' }, ['the name of a file in quotes'], '""'],
    [{ type: 'text' }, ['a text in quotes'], '""'],
    [{ type: 'word', words: ['mean', 'linear'] }, ['`mean`', '`linear`'], 'mean'],
    [{ type: 'channel' }, ["a channel's name"], undefined],
    [{ type: 'channel', role: 'label' }, ['a name'], undefined],
    [{ type: 'unit', dimension: 'any' }, ['a unit'], 'g'],
    [{ type: 'unit', dimension: 'force' }, ['a unit of force'], 'N'],
    [{ type: 'step', verb: 'window' }, ['a `window …` written in place'], undefined],
  ];
  for (const [accept, words, sample] of cases)
    it(`is told as ${words.join(' or ')}, with ${sample ?? 'no sample'}`, () => {
      assert.deepEqual(describeAccepts([accept, accept], kinds), words);
      assert.equal(sampleOf([{ type: 'channel' }, accept]), sample);
    });

  it('is told in full where there is room for all kinds', () => {
    const many: Accept = { type: 'value', kinds: ['runs', 'spectrum', 'bands', 'levels', 'peaks', 'table', 'window'] };
    const words = ['runs', 'a spectrum', 'bands', 'levels', 'peaks', 'a table', 'a window'];
    assert.deepEqual(describeAccepts([many], kinds, true), words);
  });
});

describe('the line of a verb’s examples that a sentence shows', () => {
  const form = (...examples: string[]): Form => ({
    ...{ verb: 'trim', summary: '', help: '', operands: [], options: [], gives: 'runs', examples },
  });
  it('is the first in which the verb stands, wherever in the line', () => {
    assert.equal(exampleLine(form('r = load "a.csv"\ntrim r 5..80 s')), 'trim r 5..80 s');
    assert.equal(exampleLine(form('trimmed = 3', 'load "a.csv" |trim 5..80 s')), 'load "a.csv" |trim 5..80 s');
    assert.equal(exampleLine(form('spectrum (trim r 5..80 s)')), 'spectrum (trim r 5..80 s)');
  });
  it('is none that goes on in the next line or is long', () => {
    assert.equal(exampleLine(form('trim r,\n  5..80 s')), undefined);
    assert.equal(exampleLine(form(`trim ${'r'.repeat(100)} 5..80 s`, 'trim r 1..2 s')), 'trim r 1..2 s');
    assert.equal(exampleLine(form()), undefined);
  });
});

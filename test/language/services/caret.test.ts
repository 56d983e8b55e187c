import { strict as assert } from 'node:assert';
import type { Accept } from '../../../src/language/form.ts';
import { caretAt, type Expecting, type Situation } from '../../../src/language/services/caret.ts';
import { casesIn } from '../cases.ts';
import { ground, marked } from './marked.ts';

function accepted(accept: Accept): string {
  switch (accept.type) {
    case 'word':
      return accept.words.join('/');
    case 'value':
      return accept.kinds.length > 6 ? 'any' : accept.kinds.join('/');
    case 'quantity':
    case 'range':
    case 'unit':
      return `${accept.type} ${accept.dimension}`;
    case 'text':
      return accept.role === undefined ? 'text' : `text ${accept.role}`;
    default:
      return accept.type;
  }
}

const expected = ({ arrangement, slot, accepts, options, operands, asksUnit, piped }: Expecting): string =>
  [
    arrangement.form.verb,
    slot ? `${slot.option ? 'option' : 'operand'} ${slot.name}` : 'no slot',
    `(${accepts.map(accepted).join(', ')})`,
    ...(options.length > 0 ? [`options ${options.map(({ keyword }) => keyword).join(' ')}`] : []),
    ...(operands.length > 0 ? [`words ${operands.map(({ keyword }) => keyword).join(' ')}`] : []),
    ...(asksUnit ? ['in'] : []),
    ...(piped ? [`after ${piped.kind ?? '?'}`] : []),
  ].join(' ');

function told(situation: Situation): string {
  switch (situation.type) {
    case 'nowhere':
      return 'nowhere';
    case 'statement':
      return situation.inside ? 'statement inside' : 'statement';
    case 'pipe':
    case 'field':
      return `${situation.type} ${situation.kind ?? '?'}`;
    case 'unit':
      return `unit ${situation.of.kind ?? '?'}`;
    case 'value':
      return `value ${situation.call?.name.text ?? '-'} ${situation.call ? situation.call.arguments.length - 1 : 0}`;
    case 'text':
      return `text <${situation.written}> ${situation.expecting.map(expected).join(' && ')}`.trim();
    case 'argument':
      return `argument${situation.afterNumber ? ' after a number' : ''} ${situation.expecting.map(expected).join(' && ')}`;
  }
}

describe('where a caret stands', () => {
  // What could stand there, and the place of what is being typed with what is typed of it.
  for (const [text, situation, typed] of casesIn('carets.txt'))
    it(text, () => {
      const { notebook, cell, offset } = marked(ground, text);
      const caret = caretAt(notebook, cell, offset);
      assert.equal(told(caret.situation), situation);
      assert.equal(`${caret.place.from}-${caret.place.to} <${caret.prefix}>`, typed);
    });

  it('is after a name, even if the name is also the word of a step', () => {
    const expects = (words: string): string => {
      const { notebook, cell, offset } = marked(ground, 'hann = window hann 2 s', words);
      return told(caretAt(notebook, cell, offset).situation);
    };
    assert.match(expects('spectrum r using hamming ¦'), /^argument window /);
    assert.match(expects('spectrum r using hann ¦'), /^argument spectrum /);
  });
});

import { strict as assert } from 'node:assert';
import { checkNotebook } from '../../src/language/check.ts';
import type { Arrangement, Entry } from '../../src/language/arrangement.ts';
import type { Diagnostic } from '../../src/language/diagnostic.ts';
import { casesIn } from './cases.ts';
import { catalogue } from './catalogue.ts';

/** Names of one value of each usual kind, in a cell before. */
const ground = [
  'r = load "raw/a*.csv"',
  'S = spectrum r',
  'W = window hann 2 s',
  'C = compare r with r',
  'L = levels r',
  'f0 = 10 Hz',
  'k = 40 N/mm',
  'm = 80 kg',
  'n = 3',
  'T = "a text"',
].join('\n');

/** A step as it was laid out: its operands and options, what is no sure fit behind a question mark, and what could follow. */
function laid({ form, operands, options, next, open }: Arrangement, text: string): string {
  const written = ({ node, inner, sure }: Entry): string =>
    (inner ? `{${laid(inner, text)}}` : text.slice(node.place.from, node.place.to) || '<>') + (sure ? '' : '?');
  const all = [
    ...[...operands].map(([name, entries]) => `${name}: ${entries.map(written).join(', ')}`),
    ...[...options].flatMap(([keyword, uses]) =>
      uses.map(({ entries }) => `${keyword}= ${entries.map(written).join(', ')}`.trim()),
    ),
  ];
  return `${form.verb} ${all.join('; ')} @${next}${open ? `${open.keyword}…` : ''}`;
}

const told = ({ code, place, message, fixes = [] }: Diagnostic): string =>
  `${code} ${place.from}-${place.to}: ${message}` +
  fixes.map(({ title, place: at, text }) => ` {${title} @${at.from}-${at.to} ${text}}`).join('');

describe('what is understood and said of a statement', () => {
  // How its steps were laid out, its kind, what it is and the names it uses, and each message with its fixes.
  for (const [text, steps, typed, ...messages] of casesIn('checks.txt'))
    it(text, () => {
      const notebook = checkNotebook([ground, text], catalogue);
      const own = notebook.steps.filter(({ cell }) => cell === 1).map(({ arrangement }) => laid(arrangement, text));
      assert.equal(own.join(' && ') || '-', steps);
      const { kind, expression, uses } = notebook.statements.findLast(({ cell }) => cell === 1)!;
      assert.equal(`${kind ?? '?'} ${expression?.type ?? '-'} ${uses.join(' ')}`.trim(), typed);
      assert.deepEqual(notebook.problems[1].map(told), messages);
    });
});

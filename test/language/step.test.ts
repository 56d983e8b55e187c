import { strict as assert } from 'node:assert';
import { checkNotebook } from '../../src/language/check.ts';
import type { Arrangement, Entry } from '../../src/language/arrangement.ts';
import type { Diagnostic } from '../../src/language/diagnostic.ts';
import type { Catalogue } from '../../src/language/vocabulary.ts';
import { catalogue as shipped } from '../../src/verbs/catalogue.ts';
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

/** How its steps were laid out, its kind, what it is and the names it uses, and each message with its fixes. */
function understood(text: string, words: Catalogue): string[] {
  const notebook = checkNotebook([ground, text], words);
  const own = notebook.steps.filter(({ cell }) => cell === 1).map(({ arrangement }) => laid(arrangement, text));
  const { kind, expression, uses } = notebook.statements.findLast(({ cell }) => cell === 1)!;
  const typed = `${kind ?? '?'} ${expression?.type ?? '-'} ${uses.join(' ')}`.trim();
  return [own.join(' && ') || '-', typed, ...notebook.problems[1].map(told)];
}

describe('what is understood and said of a statement', () => {
  for (const [text, ...expected] of casesIn('checks.txt'))
    it(text, () => assert.deepEqual(understood(text, catalogue), expected));
});

describe('what is understood of a claim, and of the keywords that stand in each other’s place', () => {
  for (const [text, ...expected] of casesIn('verbs.txt'))
    it(text, () => assert.deepEqual(understood(text, shipped), expected));
});

import { strict as assert } from 'node:assert';
import { readdirSync, readFileSync } from 'node:fs';
import { format } from 'prettier';
import { grammar } from '../../scripts/grammar/grammar.ts';
import { tokenize } from '../../src/language/tokens.ts';
import { vocabularyOf } from '../../src/language/vocabulary.ts';
import { catalogue } from '../../src/verbs/catalogue.ts';
import { read, tokenise, type Grammar, type Scoped } from './tokenise.ts';

const committed = read('syntaxes/washboard.tmLanguage.json') as Grammar;
const vocabulary = vocabularyOf(catalogue);

/** Texts of one scope, whose head is enough. */
const of = (tokens: readonly Scoped[], scope: string): string[] =>
  tokens.filter((token) => token.scope.startsWith(scope)).map((token) => token.text);

const cells = (): string[] => {
  const folder = new URL('../../samples/', import.meta.url);
  const notebooks = readdirSync(folder).filter((file) => file.endsWith('.washboard.md'));
  return notebooks.flatMap((file) =>
    [...readFileSync(new URL(file, folder), 'utf8').matchAll(/^```washboard\n(.*?)^```$/gms)].map((match) => match[1]),
  );
};

describe('the grammar of a cell', () => {
  it('is what the catalogue of verbs makes of it: run `npx tsx scripts/grammar/makeGrammar.ts` after a change', async () => {
    const made = await format(JSON.stringify(grammar()), { parser: 'json', printWidth: 120 });
    assert.equal(readFileSync(new URL('../../syntaxes/washboard.tmLanguage.json', import.meta.url), 'utf8'), made);
  });

  it('colours every verb, keyword, function and fixed word of the catalogue as what it is', () => {
    const one = (line: string): string => tokenise(committed, line)[0].scope;
    for (const verb of vocabulary.verbs.keys()) assert.equal(one(`${verb} x`), 'keyword.control.verb.washboard', verb);
    for (const word of vocabulary.functions.keys()) assert.equal(one(`${word}(1)`), 'support.function.washboard', word);
    for (const word of vocabulary.keywords) {
      // Such as `channel`, which is a step of its own and an option of load.
      if (vocabulary.verbs.has(word)) continue;
      const line = word === 'in' || word === 'unit' ? `${word} Hz` : `${word} x`;
      assert.match(one(line), /^keyword\.(other\.option|operator\.word)\.washboard$/, word);
    }
    for (const word of vocabulary.words) {
      if (!vocabulary.verbs.has(word) && !vocabulary.keywords.has(word))
        assert.equal(one(word), 'support.constant.washboard', word);
    }
  });

  it('colours no part of a longer word: loader, over_all, inside, mean_square are names', () => {
    for (const word of ['loader', 'reload', 'over_all', 'inside', 'mean_square', 'näher', 'plot2', '_load']) {
      assert.deepEqual(tokenise(committed, `(${word})`)[1], { text: word, scope: 'variable.other.washboard' });
    }
  });

  it('colours a statement with a name, text, pipeline, range, unit and comment', () => {
    const tokens = tokenise(committed, 'a = load "raw/a*.csv" | trim 5..80.5 s # five in "all"');
    assert.deepEqual(of(tokens, 'variable.other.constant'), ['a']);
    assert.deepEqual(of(tokens, 'string'), ['"raw/a*.csv"']);
    assert.deepEqual(of(tokens, 'keyword.control.verb'), ['load', 'trim']);
    assert.deepEqual(of(tokens, 'constant.numeric'), ['5', '80.5']);
    assert.deepEqual(of(tokens, 'keyword.operator.range'), ['..']);
    assert.deepEqual(of(tokens, 'keyword.other.unit'), ['s']);
    assert.deepEqual(of(tokens, 'comment'), ['# five in "all"']);
  });

  it('colours units whole, and tells the inch from the word of conversion', () => {
    const units = (line: string): string[] => of(tokenise(committed, line), 'keyword.other.unit');
    assert.deepEqual(units('9.80665 m/s^2'), ['m/s^2']);
    assert.deepEqual(units('9.80665m/s²'), ['m/s²']);
    assert.deepEqual(units('15 % + 3 dB'), ['%', 'dB']);
    assert.deepEqual(units('571 lbf/in in N/mm'), ['lbf/in', 'N/mm']);
    assert.deepEqual(units('3 in'), ['in']);
    assert.deepEqual(units('(a / b) in mm'), ['mm']);
    assert.deepEqual(units('load "x" unit m/s^2'), ['m/s^2']);
    assert.deepEqual(units('2 springs'), []);
  });

  it('leaves an unfinished text on its own line', () => {
    assert.deepEqual(of(tokenise(committed, 'load "raw/a'), 'string'), ['"raw/a']);
    assert.deepEqual(of(tokenise(committed, 'plot a'), 'string'), []);
  });

  it('agrees with the tokens of the language on every line of the samples', () => {
    const lines = cells().flatMap((cell) => cell.split('\n'));
    assert.ok(lines.length > 60, 'no cells found');
    for (const line of lines) {
      const tokens = tokenize(line);
      const coloured = tokenise(committed, line);
      const texts = (kind: string): string[] =>
        tokens.filter((token) => token.kind === kind).map((token) => token.text);
      assert.deepEqual(of(coloured, 'comment'), texts('comment'), line);
      assert.deepEqual(of(coloured, 'string'), texts('text'), line);
      // The digits of an exponent such as s^2 belong to the unit.
      const outside = texts('number').filter(
        (number) => !of(coloured, 'keyword.other.unit').some((unit) => unit.includes(`^${number}`)),
      );
      assert.deepEqual(of(coloured, 'constant.numeric'), outside, line);
      const verbs = texts('word').filter((word) => vocabulary.verbs.has(word));
      assert.deepEqual(of(coloured, 'keyword.control.verb'), verbs, line);
    }
  });
});

describe('the injection into Markdown', () => {
  const { repository, injectionSelector } = read('syntaxes/markdown-injection.tmLanguage.json') as {
    injectionSelector: string;
    repository: { 'fenced-washboard': { begin: string; end: string } };
  };
  const fence = repository['fenced-washboard'];
  // \G, the end of the last match, has no twin in this host; at the head of a line it is the same as ^.
  const begin = new RegExp(fence.begin.replaceAll('|\\G', ''), 'u');

  it('goes into Markdown', () => assert.equal(injectionSelector, 'L:text.html.markdown'));

  it('begins at a fence whose first word is washboard, of backticks or tildes, indented or not', () => {
    for (const line of ['```washboard', '~~~washboard', '````  washboard', '  ```washboard title="x"'])
      assert.match(line, begin);
  });

  it('begins at no other fence', () => {
    for (const line of ['```', '``washboard', '```washboards', '```python washboard', '```washboard `x`'])
      assert.doesNotMatch(line, begin);
  });

  it('ends at a fence of the same marks', () => {
    const end = (marks: string): RegExp =>
      new RegExp(fence.end.replaceAll('|\\G', '').replace('\\2', '').replace('\\3', marks), 'u');
    assert.match('```', end('```'));
    assert.match('  ```  ', end('```'));
    assert.doesNotMatch('~~~', end('```'));
    assert.doesNotMatch('``` x', end('```'));
  });
});

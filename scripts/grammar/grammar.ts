import { vocabularyOf } from '../../src/language/vocabulary.ts';
import { atoms } from '../../src/units/atoms.ts';
import { catalogue } from '../../src/verbs/catalogue.ts';

/** One rule of a TextMate grammar without nesting: what it matches and the scope of each capture. */
export interface Rule {
  readonly match: string;
  readonly name?: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
}

export interface Grammar {
  readonly scopeName: string;
  readonly name: string;
  readonly information_for_contributors: readonly string[];
  readonly fileTypes: readonly string[];
  readonly patterns: readonly Rule[];
}

const name = '[\\p{L}_][\\p{L}\\p{N}\\p{M}_]*';
/** No letter, digit or underscore before or after. */
const before = '(?<![\\p{L}\\p{N}\\p{M}_])';
const after = '(?![\\p{L}\\p{N}\\p{M}_])';

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

/** Longer spellings first, or `m` would take the head of `mm`. */
const anyOf = (words: Iterable<string>): string =>
  `(?:${[...new Set(words)]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map(escaped)
    .join('|')})`;

/** A raised digit may follow a unit: it is its power. */
const atom = `(?:%|${anyOf([...atoms.keys()].filter((symbol) => symbol !== '%'))}(?![\\p{L}\\p{Nd}\\p{M}_]))`;
const power = '(?:\\^-?\\d+|[⁻²³⁴]+)?';
const unit = `(?:1\\/)?${atom}${power}(?:[*/·]\\(?${atom}${power}\\)?)*`;

/** The grammar of a cell, from the catalogue of verbs and the table of units; the first rule that fits wins. */
export function grammar(): Grammar {
  const { verbs, functions, keywords, words } = vocabularyOf(catalogue);
  const options = [...keywords].filter((word) => word !== 'in' && word !== 'unit');
  const captures = (...names: string[]): NonNullable<Rule['captures']> =>
    Object.fromEntries(names.map((scope, k) => [String(k + 1), { name: `${scope}.washboard` }]));
  return {
    scopeName: 'source.washboard',
    name: 'Washboard',
    information_for_contributors: [
      'Made by scripts/grammar/makeGrammar.ts from the catalogue of verbs; edit that, not this.',
    ],
    fileTypes: ['washboard'],
    patterns: [
      { match: '#.*$', name: 'comment.line.number-sign.washboard' },
      { match: '"[^"]*(?:"|$)', name: 'string.quoted.double.washboard' },
      { match: `^\\s*(${name})\\s*(=)`, captures: captures('variable.other.constant', 'keyword.operator.assignment') },
      { match: `${before}(in)\\s+(${unit})`, captures: captures('keyword.operator.word', 'keyword.other.unit') },
      { match: `${before}(unit)\\s+(${unit})`, captures: captures('keyword.other.option', 'keyword.other.unit') },
      {
        // The inch of `3 in`, but not the `in` of `3 in mm`.
        match: `${before}(\\d+(?:\\.\\d+)?(?:[eE][+-]?\\d+)?|\\.\\d+)(?:\\s*((?!in\\s+${unit})${unit}))?`,
        captures: captures('constant.numeric', 'keyword.other.unit'),
      },
      { match: '\\.\\.', name: 'keyword.operator.range.washboard' },
      { match: `(\\.)(${name})`, captures: captures('punctuation.accessor', 'variable.other.property') },
      { match: `${before}${anyOf(functions.keys())}(?=\\s*\\()`, name: 'support.function.washboard' },
      { match: `${before}${anyOf(verbs.keys())}${after}`, name: 'keyword.control.verb.washboard' },
      { match: `${before}${anyOf(options)}${after}`, name: 'keyword.other.option.washboard' },
      { match: `${before}${anyOf(['pi', ...words])}${after}`, name: 'support.constant.washboard' },
      { match: '\\|', name: 'keyword.operator.pipeline.washboard' },
      { match: '[-+*/^]', name: 'keyword.operator.arithmetic.washboard' },
      { match: '=', name: 'keyword.operator.assignment.washboard' },
      { match: ',', name: 'punctuation.separator.washboard' },
      { match: '[()]', name: 'punctuation.parenthesis.washboard' },
      { match: '[\\[\\]]', name: 'punctuation.bracket.washboard' },
      { match: name, name: 'variable.other.washboard' },
    ],
  };
}

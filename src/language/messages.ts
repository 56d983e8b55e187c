import { messages, type Sentences } from '../result/messages.ts';
import { capitalised, counted, listed } from '../result/words.ts';
import { describeDimension, dimensionOf, sameDimension } from '../units/dimension.ts';
import { cellWords } from './cellName.ts';
import { describeDimensionName } from './describe.ts';
import type { Diagnostic, Fix, Place, Severity } from './diagnostic.ts';
import type { Code, LanguageFacts, LanguageMessage, Slot } from './facts.ts';
import type { Expected } from './tree.ts';

/** Words of the language as alternatives; a long list is told by its first members. */
const quoted = (words: readonly string[], last = 'or', most = Infinity): string =>
  listed(words, last, most, (word) => `\`${word}\``);

const meant = (nearest: readonly string[]): string =>
  nearest.length > 0 ? `did you mean ${quoted(nearest.slice(0, 2))}?` : '';

/** `the option \`order\` of \`highpass\``. */
const slotInWords = ({ verb, slot, option }: Slot): string =>
  option ? `the option \`${slot}\` of \`${verb}\`` : `what \`${verb}\` takes as ${slot.toUpperCase()}`;

const such = (unit: string): string => (unit === '' ? '' : `, such as ${unit}`);

const expected: Readonly<Record<Expected, string>> = {
  step: 'a verb or a value',
  value: 'a value',
  operand: 'one more value',
  unit: 'a unit',
  text: 'a text in quotes',
  field: 'the name of a field',
  number: 'the number of a run, counted from 1',
  'end of range': 'the upper end of the range',
};

const sentences: Sentences<LanguageFacts> = {
  'syntax.missing': ({ expected: what, after }) =>
    after === '' ? `Here ${expected[what]} is missing.` : `After \`${after}\` ${expected[what]} is missing.`,
  'syntax.unexpected': ({ found }) =>
    `\`${found}\` is not expected here; a statement is one verb with its operands, or one expression.`,
  'syntax.character': ({ found, instead }) =>
    instead === undefined
      ? `The character ${found} has no meaning here; leave it out.`
      : `The character ${found} has no meaning here; write ${instead} instead.`,
  'syntax.deep': () => 'This is nested or chained too deeply; bind a part of it to a name of its own.',
  'syntax.long': ({ of, most }) =>
    of === 'list'
      ? `This list has more than ${most} items; the rest of the statement is not read. Write a pattern for many files, or divide the list.`
      : of === 'cell'
        ? `A cell is read up to ${most} statements, and this one has more; divide it into several cells.`
        : `A notebook is read up to ${most} statements, and what follows is beyond them; divide it into several notebooks.`,
  'text.unclosed': () => 'This text has no closing quote; add " at its end.',
  'text.quotes': ({ found, instead }) => `\`${found}\` has to stand in quotes: ${instead}.`,
  'bracket.unclosed': ({ bracket }) => `This ${bracket} is never closed; add ${bracket === '(' ? ')' : ']'}.`,
  'number.comma': ({ found, instead }) => `\`${found}\` reads as two numbers; a decimal mark is a point: ${instead}.`,
  'verb.unknown': ({ verb, nearest }) =>
    `There is no verb \`${verb}\`; ${meant(nearest) || 'a statement begins with a verb such as `load` or `spectrum`.'}`,
  'verb.bracket': ({ verb }) =>
    `\`${verb}\` is a verb, not a function: write \`${verb} …\`, in brackets where it stands inside another statement.`,
  'verb.place': ({ verb }) => `The verb \`${verb}\` can stand here only in brackets with its operands: (${verb} …).`,
  'verb.missing': ({ found, instead }) =>
    `\`${found}\` is a name, and operands follow only a verb${instead === undefined ? '; put the verb first.' : `; write \`${instead}\`.`}`,
  'pipe.verb': ({ found }) => `After | stands a verb that takes what comes down the pipe, not \`${found}\`.`,
  'function.unknown': ({ name, nearest }) =>
    `There is no function \`${name}\`; ${meant(nearest) || 'bind it to a name or use one of the functions that the language has.'}`,
  'function.arguments': ({ name, wanted, found }) =>
    `\`${name}\` is used as ${wanted}; here it has ${found === 0 ? 'no arguments' : counted(found, 'argument')}.`,
  'name.unknown': ({ name, nearest }) =>
    `Nothing in this notebook is called \`${name}\`; ${meant(nearest) || `bind it with \`${name} = …\`.`}`,
  'name.twice': ({ name, cell, line, same }) =>
    `\`${name}\` is already bound in ${same ? 'this cell' : cellWords(cell)}, line ${line}; a name is bound once, so choose another.`,
  'name.reserved': ({ name, what }) =>
    `\`${name}\` is a ${what} of the language and can't be a name; choose another, such as \`my_${name}\`.`,
  'name.letters': ({ name }) => `\`${name}\` can't be a name; names are made of letters, digits and _.`,
  'name.circle': ({ members }) =>
    members.length === 1
      ? `\`${members[0]}\` is made from itself; bind the result to another name.`
      : `${quoted(members, 'and', 6)} need each other in a circle; make one of them without the others.`,
  'name.failed': ({ names }) =>
    `This depends on ${quoted(names, 'and', 6)}, which ${names.length === 1 ? 'has' : 'have'} an error.`,
  'name.unused': ({ name }) => `\`${name}\` is never used.`,
  'operand.missing': ({ verb, operand, keyword, wanted, example }) =>
    `\`${verb}\` needs ${keyword === undefined ? '' : `\`${keyword}\` and `}${listed(wanted, 'or')}${keyword === undefined ? ` (${operand.toUpperCase()})` : ''}${example === undefined ? '' : `, as in \`${example}\``}.`,
  'operand.extra': ({ verb, found }) =>
    `\`${verb}\` has no place for \`${found}\`; remove it, or say with a keyword what it is.`,
  'operand.wrong': ({ where, wanted, found }) =>
    `${capitalised(slotInWords(where))} has to be ${listed(wanted, 'or')}, not \`${found}\`.`,
  'operand.minus': ({ found, instead }) =>
    `\`${found}\` reads as one word; put blanks around the minus: \`${instead}\`.`,
  'option.unknown': ({ verb, word, nearest, known }) =>
    `\`${verb}\` has no option \`${word}\`; ${meant(nearest) || (known.length > 0 ? `it knows ${quoted(known, 'and')}.` : 'it has no options.')}`,
  'option.twice': ({ verb, option }) => `\`${option}\` stands twice in this \`${verb}\`; leave one out.`,
  'option.missing': ({ verb, option, wanted }) => `After \`${option}\`, \`${verb}\` needs ${listed(wanted, 'or')}.`,
  'word.elsewhere': ({ verb, found, instead, isStep }) =>
    `\`${verb}\` has no place for \`${found}\`; ${isStep ? `bind its result to a name and write \`${instead}\` on a line of its own.` : `write \`${instead}\`.`}`,
  'word.unknown': ({ where, word, wanted, nearest }) =>
    `${capitalised(slotInWords(where))} can't be \`${word}\`; ${meant(nearest) || `it is ${quoted(wanted)}.`}`,
  'kind.mismatch': ({ where, wanted, kind, found, instead }) =>
    `${capitalised(slotInWords(where))} has to be ${listed(wanted, 'or')}, but \`${found}\` is ${kind}${instead === undefined ? '.' : `; write \`${instead}\`.`}`,
  'unit.unknown': ({ unit, nearest }) =>
    `There is no unit \`${unit}\`; ${meant(nearest) || 'units are written like Hz, m/s^2 or N/mm, and case counts.'}`,
  'unit.missing': ({ where, found, wanted, unit }) =>
    `${capitalised(slotInWords(where))} needs a unit of ${wanted} after \`${found}\`${such(unit)}.`,
  'unit.dimension': ({ where, wanted, found, dimension, unit }) =>
    wanted[0] === 'mass' && /\bg$/.test(found)
      ? `${capitalised(slotInWords(where))} has to be a mass, but g is standard gravity here: write \`gram\`, or kg.`
      : `${capitalised(slotInWords(where))} has to be ${listed([...new Set(wanted.map(describeDimensionName))], 'or')}${unit === '' ? '' : `, in ${unit} for example`}, but \`${found}\` is ${describeDimension(dimension)}${wanted.includes('frequency') && sameDimension(dimension, dimensionOf('angular velocity')) ? ': divide it by `2 * pi`, or say `in Hz`.' : '.'}`,
  'range.reversed': ({ found, instead }) => `The range \`${found}\` runs backwards; write \`${instead}\`.`,
  'range.empty': ({ found }) => `The range \`${found}\` is empty; its ends have to differ.`,
  'range.constant': ({ found }) =>
    `An end of a range has to be a quantity known before anything runs, such as 10 Hz, and \`${found}\` is not.`,
  'value.above': ({ where, above, found }) =>
    `${capitalised(slotInWords(where))} has to be above ${above}, not \`${found}\`.`,
  'value.least': ({ where, least, found }) =>
    `${capitalised(slotInWords(where))} has to be at least ${least}, not \`${found}\`.`,
  'value.most': ({ where, most, found, instead }) =>
    `${capitalised(slotInWords(where))} has to be at most ${most}, not \`${found}\`${instead === undefined ? '.' : `; did you mean \`${instead}\`?`}`,
  'value.integer': ({ where, found }) =>
    `${capitalised(slotInWords(where))} has to be a whole number, not \`${found}\`.`,
  'field.unknown': ({ field, kind, known, nearest }) =>
    known.length === 0
      ? `${capitalised(kind)} ${has(kind)} no fields, so \`.${field}\` can't be read off; use \`table\` to see the numbers.`
      : `${capitalised(kind)} ${has(kind)} no field \`${field}\`; ${meant(nearest) || `the fields are ${quoted(known, 'and')}.`}`,
  'pick.kind': ({ found, kind }) => `\`${found}\` is ${kind}, and only a set of runs can be picked from.`,
  'pick.index': ({ found }) => `Runs are counted from 1, so \`${found}\` picks none.`,
  'arithmetic.kind': ({ found, kind }) =>
    `Arithmetic is done with quantities, but \`${found}\` is ${kind}; read a number off it with a field, such as \`.rms\`.`,
  'arithmetic.dimension': ({ operator, left, right }) =>
    `${capitalised(describeDimension(left))} and ${describeDimension(right)} can't be ${operator === '+' ? 'added' : 'subtracted'}; both sides have to measure the same.`,
  'arithmetic.level': () =>
    'A level in dB is a logarithm and never mixes with other quantities; add levels to levels, or convert by hand with 10^(dB/20).',
  'arithmetic.exponent': ({ dimension }) =>
    `An exponent has to be a plain number, not ${describeDimension(dimension)}.`,
  'arithmetic.zero': () => 'This divides by zero; the divisor has to differ from 0.',
  'arithmetic.finite': () => 'This number is too large to calculate with; write it smaller, or in a larger unit.',
  'uncertainty.dimension': ({ of, by }) =>
    `The uncertainty of ${describeDimension(of)} can't be ${describeDimension(by)}; give it in a unit of the same dimension, or in %.`,
  'uncertainty.freedom': () => 'Degrees of freedom are 1 or more; leave `dof` out where they are not known.',
  'coverage.level': ({ found }) => `A coverage is a percentage from 50 to 99.99 %, such as 95 %, and not \`${found}\`.`,
  'convert.kind': ({ kind }) =>
    `${capitalised(kind)} ${has(kind)} no unit; \`in\` tells quantities, runs and results in another one.`,
  'convert.dimension': ({ unit, wanted, found }) =>
    `${capitalised(describeDimension(found))} can't be told in ${unit}, which measures ${describeDimension(wanted)}; take a unit of the same dimension.`,
  'file.missing': ({ pattern, nearest }) =>
    `No file is called ${pattern}; ${meant(nearest) || 'paths are relative to the folder of this notebook.'}`,
  'channel.unknown': ({ channel, known, nearest }) =>
    `There is no channel \`${channel}\`; ${meant(nearest) || `the channels are ${quoted(known, 'and', 6)}.`}`,
  'range.outside': ({ found, end }) =>
    `The range \`${found}\` reaches outside the recording, which runs from 0 s to ${end}; end it there.`,
  'band.rate': ({ found, half }) =>
    `The range \`${found}\` reaches past half the rate, ${half}; end it there, or record at a higher rate.`,
};

const { tell: untyped, refuse } = messages(sentences);

/** `runs` have, `a spectrum` has. */
const has = (kind: string): string => (/^an? /.test(kind) ? 'has' : 'have');

export { refuse };

/** A message that its code tells apart from others. */
export const tell = <C extends Code>(code: C, facts: LanguageFacts[C]): Extract<LanguageMessage, { code: C }> =>
  // The compiler cannot tie a generic code to its own facts; the signature does.
  untyped(code, facts as LanguageFacts[C] & object) as Extract<LanguageMessage, { code: C }>;

const severities: Partial<Record<Code, Severity>> = {
  'name.failed': 'hint',
  'name.unused': 'hint',
  // Seen from outside before anything runs; the run itself has the last word.
  'file.missing': 'warning',
  'channel.unknown': 'warning',
  'range.outside': 'warning',
  'band.rate': 'warning',
};

export type Report = <C extends Code>(code: C, place: Place, facts: LanguageFacts[C], fixes?: readonly Fix[]) => void;

/** Adds to a list, but nothing twice. */
export function reporter(diagnostics: Diagnostic[]): Report {
  return (code, place, facts, fixes = []) => {
    // Two ways of reading may come upon the same mistake.
    if (isToldOf(diagnostics, code, place)) return;
    const severity = severities[code] ?? 'error';
    diagnostics.push({ ...tell(code, facts), severity, place, ...(fixes.length > 0 ? { fixes } : {}) });
  };
}

/** A list of so many is gone through for each new one; what a longer one holds is kept beside it. */
const shortList = 16;

const reported = new WeakMap<Diagnostic[], Set<string>>();

const keyOf = (code: string, { from, to }: Place): string => `${code} ${from} ${to}`;

/** Whether a list that is about to get a message has it already. */
function isToldOf(diagnostics: Diagnostic[], code: Code, place: Place): boolean {
  if (diagnostics.length < shortList)
    return diagnostics.some((one) => one.code === code && one.place.from === place.from && one.place.to === place.to);
  let known = reported.get(diagnostics);
  if (known === undefined)
    reported.set(diagnostics, (known = new Set(diagnostics.map((one) => keyOf(one.code, one.place)))));
  const key = keyOf(code, place);
  if (known.has(key)) return true;
  known.add(key);
  return false;
}

/** What the fixes and refactorings are called. */
export const titles = {
  change: (to: string) => `Change to ${to}`,
  add: (text: string) => `Add ${text}`,
  addUnit: (unit: string) => `Add the unit ${unit}`,
  addMissing: (sign: string) => `Add the missing ${sign}`,
  addPipe: 'Add a pipe',
  addOption: (keyword: string) => `Add the option ${keyword}`,
  write: (text: string) => `Write ${text}`,
  straightQuotes: 'Write straight quotes',
  quote: (text: string) => `Put ${text} in quotes`,
  bind: (name: string) => `Bind ${name} in a new statement above`,
  unbind: (name: string) => `Show the value instead of naming it ${name}`,
  convert: (to: string) => `Convert to ${to}`,
} as const;

/** What stands over an inlay hint. */
export const tips = {
  spacing: 'Spacing of the bins, 1 / length; exactly rate / samples once the rate is known.',
  files: (pattern: string) => `Files that ${pattern} stands for now.`,
  result: 'The result.',
  unit: 'The unit understood when this was last run; the option `unit` overrides it.',
} as const;

export const changeTo = (word: string, place: Place): Fix => ({ title: titles.change(word), place, text: word });

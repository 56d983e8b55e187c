import type { Code } from './facts.ts';

/** A code's page in the reference: why it is an error, a cell that has it and the same put right. */
export interface MessagePage {
  readonly title: string;
  readonly why: string;
  readonly wrong: string;
  readonly right: string;
}

const foam = 'foam = load "raw/brick-foam-*.csv.gz" channel z';
const both = `${foam}\ngel = load "raw/brick-gel-*.csv.gz" channel z`;
const after = (line: string, ground = foam): string => `${ground}\n${line}`;

const page = (title: string, why: string, wrong: string, right: string): MessagePage => ({ title, why, wrong, right });

/** One page for every code; a test gives each wrong cell its code and each right one none. */
export const messagePages: Readonly<Record<Code, MessagePage>> = {
  'syntax.missing': page(
    'Something is missing',
    'The statement breaks off, or a sign stands without what it joins.',
    'x = 2 *',
    'x = 2 * 3',
  ),
  'syntax.unexpected': page(
    'Something has no place here',
    'A statement is one verb with its operands, or one expression; what comes after that belongs on a line of its own.',
    'x = 2 mm )',
    'x = 2 mm',
  ),
  'syntax.character': page(
    'A character has no meaning',
    'Text processors put typographic quotes, dashes and dots in place of those on the keyboard.',
    'load “raw/brick-foam-1.csv.gz”',
    'load "raw/brick-foam-1.csv.gz"',
  ),
  'syntax.deep': page(
    'A statement is too long or too deep',
    'Brackets within brackets, or terms in a row, beyond what anyone could read.',
    `x = ${'('.repeat(120)}1${')'.repeat(120)}`,
    'x = ((1))',
  ),
  'text.unclosed': page(
    'A text is not closed',
    'A text begins and ends with a straight double quote, on one line.',
    'load "raw/brick-foam-1.csv.gz',
    'load "raw/brick-foam-1.csv.gz"',
  ),
  'text.quotes': page(
    'A text without its quotes',
    'Names of files, labels and the like stand in straight double quotes.',
    'load raw/brick-foam-1.csv.gz',
    'load "raw/brick-foam-1.csv.gz"',
  ),
  'bracket.unclosed': page(
    'A bracket is not closed',
    'Every bracket that is opened has to be closed in the same statement.',
    after('band (spectrum foam 10..50 Hz'),
    after('band (spectrum foam) 10..50 Hz'),
  ),
  'number.comma': page(
    'A decimal comma',
    'The decimal mark of the language is a point; a comma separates the members of a list. (Files may use either.)',
    after('trim foam length 2,5 s'),
    after('trim foam length 2.5 s'),
  ),
  'verb.unknown': page(
    'No such verb',
    'A statement begins with a verb of the language, or is an expression.',
    after('levls foam'),
    after('levels foam'),
  ),
  'verb.bracket': page(
    'A verb is used like a function',
    'Functions take their arguments in brackets; a verb takes operands without them, and stands in brackets as a whole.',
    after('x = 2 * levels(foam)'),
    after('L = levels (foam)'),
  ),
  'verb.place': page(
    'A verb stands where a value is wanted',
    'Inside another statement a verb stands in brackets together with its operands.',
    'x = 2 + levels',
    'x = 2 + 3',
  ),
  'verb.missing': page(
    'A name stands where a verb is wanted',
    'Operands follow a verb. To hand a value on, put a pipe between.',
    after('foam levels'),
    after('foam | levels'),
  ),
  'pipe.verb': page(
    'After a pipe stands no verb',
    'What comes down a pipe is the first operand of the verb after it.',
    after('foam | 5'),
    after('foam | levels'),
  ),
  'function.unknown': page(
    'No such function',
    'The functions of the language are listed in this reference.',
    'x = sqr(4)',
    'x = sqrt(4)',
  ),
  'function.arguments': page(
    'A function has the wrong number of arguments',
    'Every function takes its arguments in brackets, separated by commas.',
    'natural_frequency(40 N/mm)',
    'natural_frequency(40 N/mm, 80 kg)',
  ),
  'name.unknown': page(
    'No such name',
    'A name stands for the value that a statement anywhere in the notebook binds to it. Case counts.',
    after('levels Foam'),
    after('levels foam'),
  ),
  'name.twice': page(
    'A name is bound twice',
    'A name is bound once in a notebook, so that a result never depends on the order in which cells were run.',
    after('foam = detrend foam'),
    after('steady = detrend foam'),
  ),
  'name.reserved': page(
    'A word of the language used as a name',
    'Verbs, functions and the words that introduce options can’t be names.',
    after('levels = levels foam'),
    after('foam_levels = levels foam'),
  ),
  'name.letters': page('A name with other characters', 'A name is made of letters, digits and _.', 'k² = 5', 'k2 = 5'),
  'name.circle': page(
    'Names that need each other',
    'A value can’t be made from itself, by whatever detour.',
    'a = b + 1\nb = a * 2',
    'a = 1\nb = a * 2',
  ),
  'name.failed': page(
    'A statement depends on one with an error',
    'It will run once that is put right.',
    'foam = lod "raw/brick-foam-1.csv.gz"\nlevels foam',
    'foam = load "raw/brick-foam-1.csv.gz"\nlevels foam',
  ),
  'name.unused': page(
    'A name is never used',
    'A hint, no error: nothing reads the value, and its cell does not show it.',
    after('spare = detrend foam\nlevels foam'),
    after('steady = detrend foam\nlevels steady'),
  ),
  'operand.missing': page(
    'An operand is missing',
    'Every operand that the verb’s form shows without square brackets has to stand.',
    after('compare foam', both),
    after('compare foam with gel', both),
  ),
  'operand.extra': page(
    'A value too many',
    'The verb has taken all its operands.',
    after('levels foam 5 s'),
    after('levels foam'),
  ),
  'operand.wrong': page(
    'An operand of another form',
    'The place takes a range, a text, a name …, and something else stands there.',
    after('trim foam 5 s'),
    after('trim foam 5..80 s'),
  ),
  'operand.minus': page(
    'A difference without blanks',
    'Among operands `a-b` is one word, as in `blackman-harris`; a difference has blanks around its minus, or brackets.',
    after('a = 5 Hz\nb = 2 Hz\nhighpass foam a-b'),
    after('a = 5 Hz\nb = 2 Hz\nhighpass foam a - b'),
  ),
  'option.unknown': page(
    'No such option',
    'The options of a verb are shown in its help.',
    after('spectrum foam usng hann 2 s'),
    after('spectrum foam using hann 2 s'),
  ),
  'option.twice': page(
    'An option stands twice',
    'Only one of them could count.',
    after('spectrum foam as psd as amplitude'),
    after('spectrum foam as amplitude'),
  ),
  'option.missing': page(
    'An option without its value',
    'After the word that introduces it, the option’s value has to stand.',
    after('spectrum foam as'),
    after('spectrum foam as amplitude'),
  ),
  'word.unknown': page(
    'None of the words that are possible',
    'The place takes one of a few fixed words.',
    'window han 2 s',
    'window hann 2 s',
  ),
  'kind.mismatch': page(
    'A value of another kind',
    'Each verb works on certain kinds of value; often one verb more makes the kind that is wanted.',
    after('band foam 10..50 Hz'),
    after('band (spectrum foam) 10..50 Hz'),
  ),
  'unit.unknown': page(
    'No such unit',
    'Units are spelt as usual and case counts; `g` is standard gravity.',
    after('trim foam 5..80 sek'),
    after('trim foam 5..80 s'),
  ),
  'unit.missing': page(
    'A number without its unit',
    'A quantity says its unit; nothing is assumed.',
    after('trim foam 5..80'),
    after('trim foam 5..80 s'),
  ),
  'unit.dimension': page(
    'A unit of something else',
    'The place takes a time, a frequency, a percentage …, and the quantity measures something else. A level in dB is never taken for a percentage.',
    after('trim foam 5..80 Hz'),
    after('trim foam 5..80 s'),
  ),
  'range.reversed': page(
    'A range that runs backwards',
    'A range goes from its lower to its upper end.',
    after('trim foam 80..5 s'),
    after('trim foam 5..80 s'),
  ),
  'range.empty': page(
    'An empty range',
    'The ends of a range have to differ.',
    after('trim foam 5..5 s'),
    after('trim foam 5..6 s'),
  ),
  'range.constant': page(
    'A range that is not known before the run',
    'The ends of a range are literal quantities, or names bound to such.',
    after('L = levels foam\ntrim foam 0 s..L.rms'),
    after('stop = 80 s\ntrim foam 0 s..stop'),
  ),
  'value.above': page(
    'A value that is not above its bound',
    'The place has a lower bound that is not itself allowed: no segment lasts 0 s.',
    'window hann 0 s',
    'window hann 2 s',
  ),
  'value.least': page(
    'A value too small',
    'The place has a lower bound.',
    after('spectrum foam confidence 5 %'),
    after('spectrum foam confidence 95 %'),
  ),
  'value.most': page(
    'A value too large',
    'The place has an upper bound; a percentage needs its %.',
    after('spectrum foam confidence 95'),
    after('spectrum foam confidence 95 %'),
  ),
  'value.integer': page(
    'Not a whole number',
    'The place counts something.',
    'load "raw/brick-gel-1.csv.gz" skip 2.5',
    'load "raw/brick-gel-1.csv.gz" skip 2',
  ),
  'field.unknown': page(
    'No such field',
    'The scalars that can be read off a value depend on its kind.',
    after('C = compare foam with gel\nC.chnge', both),
    after('C = compare foam with gel\nC.change', both),
  ),
  'pick.kind': page(
    'Nothing to pick from',
    'A number in square brackets picks one run of a set.',
    'k = 40 N/mm\nk[1]',
    after('foam[1]'),
  ),
  'pick.index': page(
    'Runs are counted from 1',
    'The first run of a set is number 1.',
    after('foam[0]'),
    after('foam[1]'),
  ),
  'arithmetic.kind': page(
    'Arithmetic with something else than a quantity',
    'Only quantities can be added and multiplied; a field reads one off a result.',
    after('L = levels foam\nL * 2'),
    after('L = levels foam[1]\nL.rms * 2'),
  ),
  'arithmetic.dimension': page(
    'A sum of unlike quantities',
    'Both sides of a sum or a difference have to measure the same.',
    'x = 5 mm + 2 s',
    'x = 5 mm + 2 cm',
  ),
  'arithmetic.level': page(
    'A level among other quantities',
    'A level in dB is a logarithm of a ratio: levels add to levels, and anything else would mix sizes with logarithms silently.',
    'x = 3 dB * 2 mm',
    'x = 3 dB + 2 dB',
  ),
  'arithmetic.exponent': page(
    'An exponent with a unit',
    'Only plain numbers can be exponents.',
    'x = 2^(3 s)',
    'x = 2^3',
  ),
  'arithmetic.zero': page('A division by zero', 'There is no such number.', 'x = 1/0', 'x = 1/4'),
  'arithmetic.finite': page('A number too large', 'It is beyond what can be calculated with.', 'x = 1e999', 'x = 1e99'),
  'convert.dimension': page(
    'A conversion to a unit of something else',
    'After `in` stands a unit of the same dimension.',
    'x = 40 N/mm in kg',
    'x = 40 N/mm in lbf/in',
  ),
  'file.missing': page(
    'No such file',
    'Paths are relative to the notebook’s folder; `*` and `?` stand for any characters.',
    'load "raw/brick-fom-1.csv.gz"',
    'load "raw/brick-foam-1.csv.gz"',
  ),
  'channel.unknown': page(
    'No such channel',
    'Axes are called x, y and z whatever the file spells; other columns keep their header.',
    after('channel foam w'),
    after('channel foam z'),
  ),
  'range.outside': page(
    'A stretch outside the recording',
    'The stretch would have no samples there.',
    after('trim foam 5..500 s'),
    after('trim foam 5..80 s'),
  ),
  'band.rate': page(
    'A band past half the rate',
    'A recording holds no frequencies above half its rate.',
    after('S = spectrum foam\nband S 10..500 Hz'),
    after('S = spectrum foam\nband S 10..150 Hz'),
  ),
};

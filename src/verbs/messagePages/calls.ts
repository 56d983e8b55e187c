import type { CallFacts } from '../messages/calls.ts';
import type { ExpressionFacts } from '../messages/expressions.ts';
import { page, type MessagePage } from '../../result/pages.ts';
import { after } from './ground.ts';

/** Codes that the checker of the text has too, and their pages with it. */
type OfTheText = 'operand.missing' | 'unit.dimension' | 'arithmetic.zero' | 'arithmetic.finite';

/** Of a call's arguments taken together, and of quantities that are known only when a cell runs. */
export const callPages: Readonly<Record<Exclude<keyof (CallFacts & ExpressionFacts), OfTheText>, MessagePage>> = {
  'option.value': page(
    'A decimal mark that is none',
    'Numbers are written with a point or a comma.',
    'load "raw/brick-foam-1.csv.gz" decimal ";"',
    'load "raw/brick-foam-1.csv.gz" decimal "."',
  ),
  'trim.twice': page(
    'A stretch that is said twice',
    'A range says all; of from, to and length two do.',
    after('trim foam 10..70 s from 10 s'),
    after('trim foam from 10 s length 60 s'),
  ),
  'range.backward': page(
    'A stretch that ends before it begins',
    'The start comes first.',
    after('trim foam from 70 s to 10 s'),
    after('trim foam from 10 s to 70 s'),
  ),
  'sheet.missing': page(
    'A run sheet is wanted',
    '`where` and `including` speak of the rows of a run sheet.',
    'load "raw/brick-foam-1.csv.gz" including excluded',
    'load "raw/brick-foam-1.csv.gz" sheet "raw/runs.csv" including excluded',
  ),
  'plot.mixed': page(
    'Values that share no axis',
    'A chart is over time or over frequency.',
    after('plot foam, (spectrum foam)'),
    after('plot (spectrum foam)'),
  ),
  'unit.level': page(
    'A level with another quantity',
    'A level in dB is a logarithm, and adds to levels alone.',
    after('L = levels foam\nL.rms * 3 dB'),
    after('L = levels foam\ndecibels(L.crest_factor) + 3 dB'),
  ),
  'unit.exponent': page(
    'An exponent with a unit',
    'An exponent is a plain number.',
    after('L = levels foam\n2 ^ L.rms'),
    after('L = levels foam\n2 ^ L.crest_factor'),
  ),
  'function.range': page(
    'A value that a function does not take',
    'Roots are of values of at least 0, logarithms and springs of values above 0.',
    'sqrt(1 - 2)',
    'sqrt(2 - 1)',
  ),
};

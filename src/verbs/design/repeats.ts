import { repeatsOf } from '../../analysis/planning/repeats.ts';
import { siOf } from '../arguments.ts';
import { refuse } from '../messages/evidence.ts';
import { answer, type Verb } from '../verb.ts';

export const repeats: Verb = {
  form: {
    verb: 'repeats',
    summary: 'Says how many runs of each a test needs.',
    help: 'The fewest runs of each of two conditions from which a two-sided t test shows a true reduction of `detect` with the given power: exact, by the noncentral t distribution (Johnson and Welch 1940). `spread` is the standard deviation of ln(level) from run to run, 4 % being common; it comes from four or more runs of one condition, or from an earlier comparison as `C.spread`. Fix the number before the first run: adding runs until a difference shows is no test. To support a claim of at least 15 %, the truth must exceed 15 % by what the table says.',
    operands: [],
    options: [
      {
        keyword: 'detect',
        doc: 'The reduction that is to be shown if it is there.',
        accepts: [{ type: 'quantity', dimension: 'ratio', above: 0, most: 0.99 }],
      },
      {
        keyword: 'spread',
        doc: 'Scatter from run to run.',
        accepts: [{ type: 'quantity', dimension: 'ratio', above: 0, most: 2 }],
      },
      {
        keyword: 'power',
        doc: 'Chance of showing it.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0.1, most: 0.9999 }],
        default: '80 %',
      },
      {
        keyword: 'confidence',
        doc: 'Of the interval.',
        accepts: [{ type: 'quantity', dimension: 'ratio', above: 0.5, most: 0.9999 }],
        default: '95 %',
      },
    ],
    gives: 'repeats',
    examples: ['repeats detect 5 % spread 4 %', 'repeats detect 10 % spread 3 % power 90 %'],
  },
  evaluate(given) {
    const detect = siOf(given, 'detect');
    const spread = siOf(given, 'spread');
    if (detect === undefined || spread === undefined)
      return refuse('option.missing', { option: detect === undefined ? 'detect' : 'spread' });
    const power = siOf(given, 'power') ?? 0.8;
    const confidence = siOf(given, 'confidence') ?? 0.95;
    const found = repeatsOf({ detect, spread, power, confidence });
    return found.ok ? answer(found.value) : found;
  },
};

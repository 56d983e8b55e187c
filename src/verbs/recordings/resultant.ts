import { resultantOf } from '../../analysis/recordings/resultant.ts';
import { valueOf } from '../arguments.ts';
import { answerOf, type Verb } from '../verb.ts';

export const resultant: Verb = {
  form: {
    verb: 'resultant',
    summary: 'Gives the vector sum of the axes, sample by sample.',
    help: 'sqrt(x² + y² + z²). It does not depend on how the logger is turned, but it is never negative: with gravity in it, it is close to 1 g plus the vibration along gravity. Take the mean out of each axis first (`detrend`) to get the size of the vibration alone.',
    operands: [{ name: 'runs', doc: 'Runs with two or three axes.', accepts: [{ type: 'value', kinds: ['runs'] }] }],
    options: [],
    gives: 'runs',
    examples: ['foam = load "raw/brick-foam-*.csv.gz"\nresultant foam'],
  },
  evaluate(given) {
    return answerOf(resultantOf(valueOf(given, 'runs', 'runs')));
  },
};

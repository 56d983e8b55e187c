import { detrended } from '../../analysis/conditioning/detrend.ts';
import { answer, operand, valueOf, wordOf, type Verb } from '../verb.ts';

export const detrend: Verb = {
  each: 'runs',
  form: {
    verb: 'detrend',
    summary: 'Takes the mean, or a straight line, out of each run.',
    help: 'The mean of an accelerometer at rest is gravity, which is no vibration. `linear` takes out a least-squares line, which also removes a slow drift of the zero.',
    operands: [
      { name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      {
        name: 'what',
        doc: 'What is taken out.',
        accepts: [{ type: 'word', words: ['mean', 'linear'] }],
        optional: true,
      },
    ],
    options: [],
    gives: 'runs',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz"\ndetrend foam',
      'foam = load "raw/brick-foam-*.csv.gz"\ndetrend foam linear',
    ],
  },
  evaluate(given) {
    const what = wordOf(operand(given, 'what')) === 'linear' ? 'linear' : 'mean';
    return answer(detrended(valueOf(given, 'runs', 'runs'), what));
  },
};

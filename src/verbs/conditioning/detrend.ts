import { removeLine, removeMean } from '../../signal/detrend.ts';
import { operand, valueOf, wordOf } from '../arguments.ts';
import { whyUneven, withSamples } from '../../analysis/recordings/runs.ts';
import { answer, type Verb } from '../verb.ts';

export const detrend: Verb = {
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
    const runs = valueOf(given, 'runs', 'runs');
    const linear = wordOf(operand(given, 'what')) === 'linear';
    const uneven = linear ? whyUneven(runs) : undefined;
    if (uneven !== undefined) return uneven;
    const level = runs.runs.map((run) =>
      withSamples(run, linear ? 'line removed' : 'mean removed', ({ samples }) => {
        const into = new Float64Array(samples.length);
        if (linear) removeLine(samples, into, run.stretches, run.rate);
        else removeMean(samples, into);
        return { samples: into, includesStatic: false };
      }),
    );
    return answer({ ...runs, runs: level });
  },
};

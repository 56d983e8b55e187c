import { resultant as vectorSum } from '../../signal/resultant.ts';
import { valueOf } from '../arguments.ts';
import type { Run } from '../../values/run.ts';
import { answer, type Verb } from '../verb.ts';
import { refuse } from '../../result/result.ts';

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
    const runs = valueOf(given, 'runs', 'runs');
    const summed: Run[] = [];
    for (const run of runs.runs) {
      const axes = run.channels;
      if (axes.length < 2)
        return refuse(
          'channel.few',
          `${run.label} has only the channel ${axes[0]?.name ?? '?'}: a resultant needs two or three axes.`,
          'runs',
        );
      const other = axes.find(({ unit }) => unit.symbol !== axes[0].unit.symbol);
      if (other !== undefined) {
        return refuse(
          'unit.mixed',
          `In ${run.label}, ${axes[0].name} is in ${axes[0].unit.symbol} and ${other.name} in ${other.unit.symbol}: only axes of one unit can be summed.`,
          'runs',
        );
      }
      const samples = vectorSum(axes.map((axis) => axis.samples));
      const one = { ...axes[0], name: 'resultant', samples, steady: axes.some(({ includesStatic: steady }) => steady) };
      delete (one as { header?: string }).header;
      summed.push({
        ...run,
        channels: [one],
        history: [...run.history, `resultant of ${axes.map(({ name }) => name).join(', ')}`],
      });
    }
    return answer({ ...runs, runs: summed });
  },
};

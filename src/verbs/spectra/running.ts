import { longRunning } from '../../analysis/spectra/longRunning.ts';
import { runningLevels } from '../../analysis/spectra/running.ts';
import { siOf, valueOf, type Verb } from '../verb.ts';

export const running: Verb = {
  takesLong: true,
  each: 'runs',
  form: {
    verb: 'running',
    summary: 'Gives the running r.m.s. over time, and its maximum.',
    help: 'sqrt((1/τ)∫a²dt) over the τ seconds that end at each sample, linear averaging, with the mean of the run removed first. Its maximum over 1 s of a weighted acceleration is the MTVV (ISO 2631-1:1997, 6.3.1). No span reaches across a gap. It shows when a run was rough: one event that holds most of a run makes its r.m.s. a poor summary.',
    operands: [{ name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] }],
    options: [
      {
        keyword: 'over',
        doc: 'Length of the span.',
        accepts: [{ type: 'quantity', dimension: 'time', above: 0 }],
        default: '1 s',
      },
    ],
    gives: 'running',
    examples: ['foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nrunning foam over 1 s'],
  },
  async evaluate(given, context) {
    const runs = valueOf(given, 'runs', 'runs');
    const over = siOf(given, 'over') ?? 1;
    const known = await longRunning(runs, over, context);
    return known.ok ? runningLevels(runs, over, context.watch, known.value) : known;
  },
};

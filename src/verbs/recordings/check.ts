import { findingsOf } from '../../analysis/recordings/findings.ts';
import { answer, option, rangeIn, valueOf, type Verb } from '../verb.ts';

export const check: Verb = {
  passesFaults: true,
  each: 'runs',
  form: {
    verb: 'check',
    summary: 'Looks at recordings as a careful engineer would before any spectrum.',
    help: 'Findings on each run and channel, the most serious first: rate and unevenness of the stamps, gaps, clipping, counts that overflow, values that are stuck, resolution, spikes, gravity and its direction, drift, how steady the level is and whether one event dominates, content near half the rate that may be folded in, and whether the run is long enough for the band of interest. In a set, also what does not match from run to run. A fault travels with every later result of its run as a warning. The thresholds are engineering choices and stand with each finding.',
    operands: [
      {
        name: 'runs',
        doc: 'The runs, with all their axes if gravity is to be judged.',
        accepts: [{ type: 'value', kinds: ['runs'] }],
      },
    ],
    options: [
      {
        keyword: 'over',
        mistaken: ['band', 'bands'],
        doc: 'The band of interest, which the rate and the length are judged by.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
      },
    ],
    gives: 'findings',
    examples: ['foam = load "raw/brick-foam-*.csv.gz" | trim 12..72 s\ncheck foam over 10..50 Hz'],
  },
  evaluate(given, { watch }) {
    return answer(findingsOf(valueOf(given, 'runs', 'runs'), rangeIn(option(given, 'over')), watch));
  },
};

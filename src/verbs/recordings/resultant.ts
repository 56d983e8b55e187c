import { axesOfResultant, resultants, whyOtherAxesAmong, type NamedAxes } from '../../analysis/recordings/resultant.ts';
import { answerOf, valueOf, type Verb } from '../verb.ts';

export const resultant: Verb = {
  each: 'runs',
  form: {
    verb: 'resultant',
    summary: 'Takes the axes together, as one vector.',
    help: 'The resultant is carried as its axes, and does not depend on how the logger was turned. Mean squares add: its density is the sum of the axes’ densities, its r.m.s., band r.m.s. and running r.m.s. the root of the sum of the axes’ squares, as in the vibration total value of ISO 2631-1:1997, 6.5 and ISO 5349-1:2001; never the spectrum of a length, which doubles frequencies. The height of a line is the root of the sum of the axes’ squared heights. Gravity is no vibration: each axis counts about its own mean. Peak, percentiles and crest factor are of the length of the vector of the mean-free axes; `mean` is the length of the mean vector, and `total_rms` keeps it. Limits of its spectrum are those of as many averages as one axis has: exact where the axes move as one, wider than need be otherwise. What is of one axis alone it has not: phase and transfer, kurtosis, skewness, peak to peak, and the vibration dose value, which ISO 2631-1 does not add up over axes. Filters, `weight`, `integrate`, `resample` and `trim` act on its axes: `weight r wd wd wk` weights x, y and z in turn. A plot over time draws the length.',
    operands: [{ name: 'runs', doc: 'Runs with two or three axes.', accepts: [{ type: 'value', kinds: ['runs'] }] }],
    options: [],
    gives: 'runs',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | trim 10..70 s\nresultant foam',
      'foam = load "raw/brick-foam-*.csv.gz" | trim 10..70 s | weight wd wd wk\nresultant foam',
    ],
  },
  evaluate(given) {
    return answerOf(resultants(valueOf(given, 'runs', 'runs')));
  },
  common: {
    of: (value) => (value.kind === 'runs' ? axesOfResultant(value) : undefined),
    whyNot: (found) => whyOtherAxesAmong(found as readonly NamedAxes[]),
  },
};

import { levelsOf, mtvvSpan } from '../../analysis/spectra/levels.ts';
import { longLevels } from '../../analysis/spectra/longLevels.ts';
import { valueOf, type Verb } from '../verb.ts';

export const levels: Verb = {
  takesLong: true,
  each: 'runs',
  form: {
    verb: 'levels',
    summary: 'Gives the single-number levels of each run and channel.',
    help: 'Mean; r.m.s., peak, peak to peak, crest factor, kurtosis and skewness of the signal with its mean removed (so gravity is not counted as vibration); `total_rms` with the mean kept; the levels that |x − mean| stays below 99 % and 99.9 % of the time; the vibration dose value (∫a⁴dt)^¼ in m/s^1.75 and the largest running r.m.s. over 1 s, MTVV, with the end of that second (ISO 2631-1:1997, 6.3.1 and 6.3.2; of the unweighted signal unless it was weighted). Kurtosis is 3 for a Gaussian signal, 1.5 for a sine. A peak grows with the length of a run: compare percentiles or r.m.s. instead. Of a `resultant` see there: it has no dose, kurtosis, skewness and peak to peak. All are of the samples as logged, never of a resampled copy, and each sample counts once however uneven its time: that is free of bias where a logger takes samples late or drops them by chance, and a mean weighted by the time between samples would only scatter more. Of a logger that samples faster while it shakes more it reads too high. Of weighted acceleration, a crest factor above 9, MTVV/a_w above 1.5 or VDV/(a_w T^¼) above 1.75 is said, for which the standard asks to look at MTVV and VDV too (6.2.1, 6.3.3); the comfort ranges of ISO 2631-1 and the action and limit values of Directive 2002/44/EC stand beside as context.',
    operands: [{ name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] }],
    options: [],
    gives: 'levels',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nlevels foam',
      'foam = load "raw/brick-foam-*.csv.gz" | trim 10..70 s\nlevels (weight foam wd wd wk)',
    ],
  },
  async evaluate(given, context) {
    const runs = valueOf(given, 'runs', 'runs');
    const known = await longLevels(runs, mtvvSpan, context);
    return known.ok ? levelsOf(runs, context.watch, known.value) : known;
  },
};

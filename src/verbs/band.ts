import { askedBands, bandRow, bandWarnings } from './bandsOf.ts';
import { valueOf } from './given.ts';
import { answer, type Verb } from './verb.ts';

export const band: Verb = {
  form: {
    verb: 'band',
    summary: 'Gives the r.m.s. in each frequency band of each run.',
    help: 'The density is integrated exactly over [low, high] as bins of one spacing’s width: a bin partly covered counts by the part covered, so neighbouring bands add up (in mean square) to the band that spans them. A band that reaches past half the rate is an error. State bands before looking at the spectrum.',
    operands: [
      { name: 'spectrum', doc: 'The spectrum.', accepts: [{ type: 'value', kinds: ['spectrum'] }] },
      {
        name: 'bands',
        doc: 'The bands, as in `10..50 Hz, 50..100 Hz`.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
        many: true,
      },
    ],
    options: [],
    gives: 'bands',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nband (spectrum foam) 4..10 Hz, 10..50 Hz',
    ],
  },
  evaluate(given) {
    const spectrum = valueOf(given, 'spectrum', 'spectrum');
    const bands = askedBands(given.operands.bands, spectrum.entries, 'bands');
    if ('failure' in bands) return bands;
    const rows = spectrum.entries.flatMap((entry) => bands.map((one) => bandRow(entry, one)));
    return answer({ kind: 'bands', set: spectrum.set, bands, rows }, bandWarnings(spectrum, bands));
  },
};

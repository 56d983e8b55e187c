import { filtered } from '../../analysis/conditioning/filter.ts';
import { sizeOf, valueOf, type Verb, orderIn, orderOption, zeroPhaseHelp } from '../verb.ts';

export const lowpass: Verb = {
  each: 'runs',
  form: {
    verb: 'lowpass',
    summary: 'Takes out what is faster than a corner frequency.',
    help: `${zeroPhaseHelp} The mean, and gravity in it, stay.`,
    operands: [
      { name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      {
        name: 'corner',
        doc: 'Above this, less and less is left.',
        accepts: [{ type: 'quantity', dimension: 'frequency', above: 0 }],
      },
    ],
    options: [orderOption],
    gives: 'runs',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z\nlowpass foam 50 Hz',
      'foam = load "raw/brick-foam-*.csv.gz" | channel z\nlowpass foam 50 Hz order 2',
    ],
  },
  evaluate(given, { watch }) {
    const filter = { kind: 'lowpass', corners: [sizeOf(given, 'corner')], order: orderIn(given) } as const;
    return filtered(valueOf(given, 'runs', 'runs'), filter, watch);
  },
};

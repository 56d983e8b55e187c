import { filtered } from '../../analysis/conditioning/filter.ts';
import { sizeOf, valueOf, type Verb, orderIn, orderOption, zeroPhaseHelp } from '../verb.ts';

export const highpass: Verb = {
  each: 'runs',
  form: {
    verb: 'highpass',
    summary: 'Takes out what is slower than a corner frequency.',
    help: `${zeroPhaseHelp} Gravity and the drift of the zero go with it.`,
    operands: [
      { name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      {
        name: 'corner',
        doc: 'Below this, less and less is left.',
        accepts: [{ type: 'quantity', dimension: 'frequency', above: 0 }],
      },
    ],
    options: [orderOption],
    gives: 'runs',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z\nhighpass foam 2 Hz',
      'foam = load "raw/brick-foam-*.csv.gz" | channel z\nhighpass foam 2 Hz order 2',
    ],
  },
  evaluate(given, { watch }) {
    const filter = { kind: 'highpass', corners: [sizeOf(given, 'corner')], order: orderIn(given) } as const;
    return filtered(valueOf(given, 'runs', 'runs'), filter, watch);
  },
};

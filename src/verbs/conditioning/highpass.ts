import { filtered, orderOption, zeroPhaseHelp } from './filtered.ts';
import { operand, quantityIn, si } from '../arguments.ts';
import type { Verb } from '../verb.ts';

export const highpass: Verb = {
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
    const corner = quantityIn(operand(given, 'corner'));
    return filtered(given, 'highpass', [corner === undefined ? NaN : si(corner)], 'corner', watch);
  },
};

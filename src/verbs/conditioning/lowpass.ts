import { filtered, orderOption, zeroPhaseHelp } from './filtered.ts';
import { operand, quantityIn, si } from '../arguments.ts';
import type { Verb } from '../verb.ts';

export const lowpass: Verb = {
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
    const corner = quantityIn(operand(given, 'corner'));
    return filtered(given, 'lowpass', [corner === undefined ? NaN : si(corner)], 'corner', watch);
  },
};

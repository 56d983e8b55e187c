import { filtered, orderOption, zeroPhaseHelp } from './filtered.ts';
import { operand, si } from '../arguments.ts';
import type { Verb } from '../verb.ts';

export const bandpass: Verb = {
  form: {
    verb: 'bandpass',
    summary: 'Keeps what lies between two corner frequencies.',
    help: `${zeroPhaseHelp} Each side of the pass band falls with the order given. For the level in a band, \`band\` of a spectrum is exact and needs no filter; filter for the shape over time.`,
    operands: [
      { name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      {
        name: 'band',
        doc: 'The pass band, as in `10..50 Hz`.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
      },
    ],
    options: [orderOption],
    gives: 'runs',
    examples: ['foam = load "raw/brick-foam-*.csv.gz" | channel z\nbandpass foam 10..50 Hz'],
  },
  evaluate(given, { watch }) {
    const band = operand(given, 'band');
    return filtered(given, 'bandpass', band?.type === 'range' ? [si(band.from), si(band.to)] : [NaN], 'band', watch);
  },
};

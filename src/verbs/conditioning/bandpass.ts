import { filtered } from '../../analysis/conditioning/filter.ts';
import { operand, rangeIn, valueOf, type Verb, orderIn, orderOption, zeroPhaseHelp } from '../verb.ts';

export const bandpass: Verb = {
  each: 'runs',
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
    const { from, to } = rangeIn(operand(given, 'band'))!;
    const filter = { kind: 'bandpass', corners: [from, to], order: orderIn(given) } as const;
    return filtered(valueOf(given, 'runs', 'runs'), filter, watch);
  },
};

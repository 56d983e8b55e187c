import { envelopes } from '../../analysis/conditioning/envelope.ts';
import { operand, rangeIn, valueOf, type Verb, orderIn, orderOption } from '../verb.ts';

export const envelope: Verb = {
  each: 'runs',
  form: {
    verb: 'envelope',
    summary: 'Gives the envelope of a band over time, as runs.',
    help: 'The size of the analytic signal (by Hilbert’s transform: Bendat and Piersol, Random Data, 13.1) of what a zero-phase band pass leaves. Its spectrum shows how often a fast vibration is struck: a knock 8 times a second that rings at 1 kHz has a line at 8 Hz in the spectrum of its envelope, and none there in its own. Choose the band about the ringing, at least twice as wide as the highest rate looked for. Some periods of the lower corner at each end of a stretch are not to be read. Its mean is the mean strength of the band: `detrend` takes it out.',
    operands: [
      { name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      {
        name: 'band',
        doc: 'The band, as in `50..150 Hz`.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
      },
    ],
    options: [orderOption],
    gives: 'runs',
    examples: ['foam = load "raw/brick-foam-*.csv.gz" | channel z\nenvelope foam 40..120 Hz | trim 10..70 s'],
  },
  evaluate(given, { watch }) {
    const band = rangeIn(operand(given, 'band'))!;
    return envelopes(valueOf(given, 'runs', 'runs'), band, orderIn(given), watch);
  },
};

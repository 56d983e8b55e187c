import { spectrumOverOrders } from '../../analysis/spectra/orders.ts';
import { answerOf, option, quantityIn, valueOf, type Verb } from '../verb.ts';

export const orders: Verb = {
  form: {
    verb: 'orders',
    summary: 'Gives a spectrum over cycles per metre, or over orders of a turning rate.',
    help: 'Each frequency is divided by the speed: `by 1.2 m/s` gives cycles per metre of way, `by 3.3 Hz` (or rpm) gives orders, cycles per turn. A density becomes unit² per order, so that its area, the mean square, stays what it was; the height of a line stays. What repeats on the way (a joint, a spoke, a turn) keeps its order when the speed changes; what resonates keeps its frequency. One speed holds for the whole spectrum: a run whose speed wandered by 5 % smears every order by 5 %. Plot spectra of different speeds over orders to see which peaks the way makes.',
    operands: [{ name: 'spectrum', doc: 'The spectrum.', accepts: [{ type: 'value', kinds: ['spectrum'] }] }],
    options: [
      {
        keyword: 'by',
        doc: 'The speed, or the turning rate.',
        accepts: [
          { type: 'quantity', dimension: 'speed', above: 0 },
          { type: 'quantity', dimension: 'frequency', above: 0 },
        ],
      },
    ],
    gives: 'spectrum',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\norders (spectrum foam) by 1.2 m/s',
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\norders (spectrum foam) by rotation_rate(1.2 m/s, 1.9 m)',
    ],
  },
  evaluate(given) {
    return answerOf(spectrumOverOrders(valueOf(given, 'spectrum', 'spectrum'), quantityIn(option(given, 'by'))));
  },
};

import { spectrumBySheet, spectrumOverOrders } from '../../analysis/spectra/orders.ts';
import { spectrumOf } from '../../analysis/spectra/spectrum.ts';
import { spectrumOverTurns } from '../../analysis/spectra/turns.ts';
import { refuse } from '../../analysis/messages/spectra.ts';
import { answered } from '../../result/result.ts';
import {
  hasFlag,
  option,
  quantityIn,
  siOf,
  textOf,
  textsIn,
  valueOf,
  valuesIn,
  type Answer,
  type Arguments,
  type Context,
  type Verb,
  usingOption,
  windowOf,
} from '../verb.ts';

export const orders: Verb = {
  form: {
    verb: 'orders',
    summary: 'Gives a spectrum over cycles per metre, or over orders of a turning rate.',
    help: 'Each frequency is divided by the speed: `by 1.2 m/s` gives cycles per metre of way, `by 3.3 Hz` (or rpm) gives orders, cycles per turn; `column speed` takes the speed of each run from that column of the run sheet, by the unit in its header. A density becomes unit² per order, so that its area, the mean square, stays what it was; the height of a line stays. What repeats on the way (a joint, a spoke, a turn) keeps its order when the speed changes; what resonates keeps its frequency. One speed holds for the whole run: one whose speed wandered by 5 % smears every order by 5 %. Where a tachometer was recorded along, `tacho CHANNEL pulses 2` follows the speed: the runs are brought to even steps of the angle between its pulses (cubic splines; computed order tracking, Fyfe and Munck 1997), and the spectrum is taken of that, in segments of as many whole turns as the window takes. Its pulses rise through the middle of its range; their times are smoothed over half a second, so that twisting within a turn is not followed. Plot spectra of different speeds over orders to see which peaks the way makes.',
    operands: [
      {
        name: 'spectrum',
        doc: 'The spectrum; or runs, of which it is taken.',
        accepts: [{ type: 'value', kinds: ['spectrum', 'runs'] }],
      },
    ],
    options: [
      {
        keyword: 'by',
        doc: 'The speed, or the turning rate.',
        accepts: [
          { type: 'quantity', dimension: 'speed', above: 0 },
          { type: 'quantity', dimension: 'frequency', above: 0 },
        ],
      },
      {
        keyword: 'column',
        doc: 'The column of the run sheet with the speed or the turning rate of each run, without its unit.',
        accepts: [{ type: 'channel' }],
      },
      {
        keyword: 'tacho',
        doc: 'The channel of the runs that counts their turns.',
        accepts: [{ type: 'channel' }],
      },
      {
        keyword: 'pulses',
        doc: 'Pulses of that channel in a turn.',
        accepts: [{ type: 'integer', least: 1, most: 10000 }],
        default: '1',
      },
      usingOption,
      {
        keyword: 'as',
        doc: 'Of runs: a density, or the height of lines.',
        accepts: [{ type: 'word', words: ['psd', 'amplitude'] }],
        default: 'psd',
      },
    ],
    gives: 'spectrum',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\norders (spectrum foam) by 1.2 m/s',
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\norders (spectrum foam) by rotation_rate(1.2 m/s, 1.9 m)',
      'foam = load sheet "raw/runs.csv" where condition foam, surface brick | channel z | trim 12..72 s\norders foam column speed using window hann 4 s as amplitude',
    ],
  },
  evaluate: ordersOf,
};

function ordersOf(given: Arguments, { watch }: Context): Answer {
  const ways = ['by', 'column', 'tacho'].filter((keyword) => hasFlag(given, keyword));
  if (ways.length > 1 || (hasFlag(given, 'pulses') && !ways.includes('tacho')))
    return refuse('orders.ways', {}, ways[1] ?? 'pulses');
  const runs = valuesIn(given.operands.spectrum ?? [], 'runs').at(0);
  const request = {
    window: windowOf(given),
    form: textsIn(given.options.as).includes('amplitude') ? 'amplitude' : 'psd',
  } as const;
  const channel = textOf(option(given, 'tacho'));
  if (channel !== undefined) {
    if (runs === undefined) return refuse('orders.ways', {}, 'tacho');
    return spectrumOverTurns(runs, { channel, pulses: siOf(given, 'pulses') ?? 1 }, request, watch);
  }
  const spectrum =
    runs === undefined ? answered(valueOf(given, 'spectrum', 'spectrum')) : spectrumOf(runs, request, watch);
  if (!spectrum.ok) return spectrum;
  const column = textOf(option(given, 'column'));
  const found =
    column === undefined
      ? spectrumOverOrders(spectrum.value, quantityIn(option(given, 'by')))
      : spectrumBySheet(spectrum.value, column);
  return found.ok ? answered(found.value, spectrum.warnings) : found;
}

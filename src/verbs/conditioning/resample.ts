import { resampled } from '../../analysis/conditioning/resample.ts';
import { sizeOf, valueOf, type Verb } from '../verb.ts';

export const resample: Verb = {
  each: 'runs',
  form: {
    verb: 'resample',
    summary: 'Brings each run to another, uniform rate.',
    help: 'A polyphase filter changes the rate by a ratio of whole numbers: a sinc under a Kaiser window (beta 5), cut off at half the lower of the two rates, so that nothing folds down. It is flat to 0.4 of the lower rate and reads half the amplitude at half of it. The rate reached is within a millionth of the one asked for, and is stated. Each unbroken stretch goes by itself; its first sample keeps its time. Readings that were taken unevenly are first brought to even steps of their mean rate by a natural cubic spline. Verbs that need a uniform rate (spectrum, spectrogram, transfer, the filters, weight, integrate, and compare of bands) do that by themselves where the steps vary by 5 to 25 % of their mean, and say so; beyond, they ask for this verb. A higher rate adds no content.',
    operands: [
      { name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      { name: 'rate', doc: 'The new rate.', accepts: [{ type: 'quantity', dimension: 'frequency', above: 0 }] },
    ],
    options: [],
    gives: 'runs',
    examples: ['foam = load "raw/brick-foam-*.csv.gz" | channel z\nresample foam 400 Hz'],
  },
  evaluate(given, { watch }) {
    return resampled(valueOf(given, 'runs', 'runs'), sizeOf(given, 'rate'), watch);
  },
};

import { transferOf } from '../../analysis/spectra/transfer.ts';
import { hasFlag, operand, textOf, valueOf, type Verb, usingOption, windowOf } from '../verb.ts';

export const transfer: Verb = {
  each: 'runs',
  form: {
    verb: 'transfer',
    summary: 'Gives the frequency response from one channel to another of the same run.',
    help: 'H1 = Gxy/Gxx and H2 = Gyy/Gyx by Welch’s averages, the coherence |Gxy|²/(Gxx Gyy), the phase (negative where the output comes later) and the random error √(1 − γ²)/(γ√(2n)) of the magnitude, which in radians is that of the phase, n being the effective averages (Bendat and Piersol, Random Data, 6.2 and 9.2). H1 reads low where the input is noisy, H2 high where the output is. What `load … calibration` states of the sensors is not in these errors: between two sensors or axes it does not fall out, and the magnitude is uncertain by the root of the sum of both relative uncertainties squared besides; in a comparison of responses between the same two it does. Where the coherence is below 0.5 the response is not to be read. `delay` is that of the largest cross-correlation, refined by a parabola; where it is more than a twentieth of a segment, the output has partly left the segment of its input, and H1 and the coherence read low (half a second of a segment of 2 s: H1 0.65, coherence 0.47 of a perfect copy): `align` takes it out first. Both channels must have been recorded at the same moments: of two separate runs only the ratio of their spectra can be taken, which is no frequency response.',
    operands: [
      { name: 'runs', doc: 'Runs that hold both channels.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      { name: 'input', doc: 'The channel that drives.', accepts: [{ type: 'channel' }], keyword: 'from' },
      { name: 'output', doc: 'The channel that responds.', accepts: [{ type: 'channel' }], keyword: 'to' },
    ],
    options: [
      usingOption,
      {
        keyword: 'align',
        doc: 'Move the output by the delay between the two, to the nearest sample; the phase is then what is left.',
        accepts: [],
      },
    ],
    gives: 'transfer',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | trim 10..70 s\ntransfer foam from x to z using window hann 1 s',
    ],
  },
  evaluate(given, { watch }) {
    const [from, to] = ['input', 'output'].map((name) => textOf(operand(given, name)) ?? '');
    return transferOf(
      valueOf(given, 'runs', 'runs'),
      { from, to },
      { window: windowOf(given), align: hasFlag(given, 'align') },
      watch,
    );
  },
};

import { longDensities } from '../../analysis/spectra/longDensities.ts';
import { spectrumOf } from '../../analysis/spectra/spectrum.ts';
import { siOf, textsIn, valueOf, type Verb, usingOption, windowOf } from '../verb.ts';

const goals = ['velocity', 'displacement'] as const;
/** Hz, as of `integrate`. */
const usualLowCut = 1;

export const spectrum: Verb = {
  takesLong: true,
  each: 'runs',
  form: {
    verb: 'spectrum',
    summary: 'Gives the spectrum of each run and channel, with confidence limits.',
    help: 'Welch’s method (Welch 1967, IEEE Trans. Audio Electroacoust. 15): one-sided, the mean of each segment removed, periodic window, mean of powers. `psd` is a density in unit²/Hz, right for broadband vibration; `amplitude` is the height of a sine in the channel’s unit, right for lines. `velocity` and `displacement` divide each bin by 2πf once or twice, so that no end of a stretch disturbs them; bins `above` the cut alone are kept, and charts and bands begin there. `as velocity amplitude` gives the height of its lines. The limits are those of each bin by itself, from chi-square with twice the effective number of averages (overlapping segments count for less); they say nothing about another run. No segment crosses a gap.',
    operands: [{ name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] }],
    options: [
      usingOption,
      {
        keyword: 'as',
        doc: 'Density, or height of lines; of the channel itself, or of its velocity or displacement.',
        accepts: [{ type: 'word', words: ['psd', 'amplitude', 'velocity', 'displacement'] }],
        many: true,
        default: 'psd',
      },
      {
        keyword: 'above',
        doc: 'Of velocity and displacement: bins below it are left out.',
        accepts: [{ type: 'quantity', dimension: 'frequency', above: 0 }],
        default: '1 Hz',
      },
      {
        keyword: 'confidence',
        doc: 'Of the limits.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0.5, most: 0.9999 }],
        default: '95 %',
      },
    ],
    gives: 'spectrum',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nspectrum foam using window hann 2 s',
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nspectrum foam as velocity above 2 Hz',
    ],
  },
  async evaluate(given, context) {
    const asked = textsIn(given.options.as);
    const goal = goals.find((one) => asked.includes(one));
    const request = {
      window: windowOf(given),
      form: asked.includes('amplitude') ? 'amplitude' : 'psd',
      confidence: siOf(given, 'confidence'),
      integrate: goal && { goal, lowCut: siOf(given, 'above') ?? usualLowCut },
    } as const;
    const runs = valueOf(given, 'runs', 'runs');
    const known = await longDensities(runs, request.window, context);
    return known.ok ? spectrumOf(runs, request, context.watch, 'using', known.value) : known;
  },
};

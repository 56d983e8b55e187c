import { loggersHeld, type NamedRuns } from '../../analysis/recordings/loggers.ts';
import {
  confidenceAccepted,
  operand,
  rangesIn,
  siOf,
  valueOf,
  type Arguments,
  type Verb,
  usingOption,
  windowOf,
} from '../verb.ts';

export const loggers: Verb = {
  form: {
    verb: 'loggers',
    summary: 'Holds two loggers that recorded the same side by side against each other.',
    help: 'Two loggers on one spot, each with a file of its own, started by hand. Stretches of the first are looked for in the second by cross-correlation, and the straight line through their delays is how late its clock is and how many ppm it runs fast (Bendat and Piersol, Random Data, 5.1; weights after Carter 1987). “Late” means that at the same moment it shows less, by so much at the first one’s 0 s: it was started later. The second is then read at the times of the first by a windowed sinc, and each channel of the same name gives the frequency response H1 from the first to the second (gain, phase, coherence: see `transfer`) and the ratio of the r.m.s. in bands, with an interval by Student’s t from the scatter over up to 20 parts. The ratio holds the sensitivities of both, and what is not common to them: their noise and their places; where the coherence is high it is the sensitivities. It says how far two loggers may be taken for one another, not which of them is right: `calibrate` does. Bands go up to 0.4 × the lower rate. Shake both through a stiff block for a minute, with more than one tone in it.',
    operands: [
      {
        name: 'a',
        doc: 'One run of the logger that the other is held against.',
        accepts: [{ type: 'value', kinds: ['runs'] }],
      },
      {
        name: 'b',
        doc: 'One run of the other logger.',
        accepts: [{ type: 'value', kinds: ['runs'] }],
        keyword: 'with',
      },
    ],
    options: [
      {
        keyword: 'over',
        mistaken: ['band', 'bands'],
        doc: 'The bands of the ratio.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
        many: true,
        default: '1 Hz to 0.4 × the lower rate',
      },
      usingOption,
      { keyword: 'confidence', doc: 'Of the intervals.', accepts: [confidenceAccepted], default: '95 %' },
    ],
    gives: 'loggers',
    examples: [
      'left = load "side/left.csv.gz"\nright = load "side/right.csv.gz"\nloggers left with right over 5..70 Hz',
      'H = loggers (load "side/left.csv.gz" channel z) with (load "side/right.csv.gz" channel z) over 5..20 Hz, 20..80 Hz\nH',
    ],
  },
  evaluate(given, { watch }) {
    return loggersHeld(
      sideIn(given, 'a'),
      sideIn(given, 'b'),
      {
        bands: rangesIn(given.options.over),
        window: windowOf(given),
        confidence: siOf(given, 'confidence') ?? 0.95,
      },
      watch,
    );
  },
};

function sideIn(given: Arguments, name: 'a' | 'b'): NamedRuns {
  const argument = operand(given, name);
  return {
    name: argument?.type === 'value' ? argument.name : undefined,
    runs: valueOf(given, name, 'runs'),
  };
}

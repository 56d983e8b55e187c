import { methodsOf } from '../../analysis/evidence/methods.ts';
import { kindNames } from '../../values/kinds.ts';
import { answer, type Verb } from '../verb.ts';

/** Results that are of runs, and what they were made with. */
const described = kindNames.filter((kind) =>
  [
    ...['runs', 'levels', 'running', 'spectrum', 'bands', 'peaks', 'transfer', 'loggers', 'shock'],
    ...['comparison', 'verdict'],
  ].includes(kind),
);

export const methods: Verb = {
  takesLong: true,
  needsNoSamples: true,
  passesFaults: true,
  form: {
    verb: 'methods',
    summary: 'Gives the paragraph on methods that an article needs, from what was run.',
    help: 'In this order: instruments (columns of the run sheet such as `logger`, `sensor`, `mount` or `calibration`), how well their sensitivity is known where `load` states it, how two loggers were held against each other, channels and rates, runs of each side with their dates, their order, what the sheet says of speed, mass, load and pressure, runs left out and why, processing with its parameters, how spectra were taken, statistics with their sources, the plan, and the version of this program. What the sheet does not say is named as missing.',
    operands: [
      {
        name: 'results',
        doc: 'What the paragraph is to account for.',
        accepts: [{ type: 'value', kinds: described }],
        many: true,
      },
    ],
    options: [],
    gives: 'methods',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\ngel = load "raw/brick-gel-*.csv.gz" | channel z | trim 10..70 s\nbricks = compare foam with gel over 10..50 Hz\nmethods bricks',
    ],
  },
  evaluate(given) {
    const values = (given.operands.results ?? []).flatMap((argument) =>
      argument.type === 'value' ? [argument.value] : [],
    );
    return answer(methodsOf(values));
  },
};

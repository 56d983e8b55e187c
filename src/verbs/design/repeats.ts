import { repeatsOf } from '../../analysis/planning/repeats.ts';
import { mostConditions } from '../../analysis/planning/runOrder.ts';
import { answer, siOf, type Verb, confidenceAccepted, marginAccepted, refuse } from '../verb.ts';

export const repeats: Verb = {
  form: {
    verb: 'repeats',
    summary: 'Says how many runs of each a test needs.',
    help: 'The fewest runs of each of two conditions, never under 3, from which `compare` shows a true reduction of `detect` with the given power; or, with `equivalent`, shows two that are the same to be so within that margin. It is reckoned for the method that `compare` will use: an interleaved order that is written down, as `order` gives it, its drift taken out, and one band named as `primary`. `spread` is the standard deviation of ln(level) from run to run, 4 % being common; it comes from four or more runs of one condition, or from an earlier comparison as `C.spread`. Of several `conditions` each is held against the baseline, and the changes hold together (Bonferroni). Fix the number before the first run: adding runs until a difference shows is no test. To support a claim of at least 15 %, the truth must exceed 15 % by what the table says.',
    operands: [],
    options: [
      {
        keyword: 'detect',
        doc: 'The reduction that is to be shown if it is there.',
        accepts: [{ type: 'quantity', dimension: 'ratio', above: 0, most: 0.99 }],
      },
      {
        keyword: 'equivalent',
        doc: 'The margin within which both are to be shown to be the same, instead of detect.',
        accepts: [marginAccepted],
      },
      {
        keyword: 'spread',
        doc: 'Scatter from run to run.',
        accepts: [{ type: 'quantity', dimension: 'ratio', above: 0, most: 0.99 }],
      },
      {
        keyword: 'power',
        doc: 'Chance of showing it.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0.1, most: 0.9999 }],
        default: '80 %',
      },
      {
        keyword: 'confidence',
        doc: 'Of the interval.',
        accepts: [confidenceAccepted],
        default: '95 %',
      },
      {
        keyword: 'conditions',
        doc: 'How many conditions, the baseline among them: the changes of all hold together.',
        accepts: [{ type: 'integer', least: 2, most: mostConditions }],
        default: '2',
      },
    ],
    gives: 'repeats',
    examples: [
      'repeats detect 5 % spread 4 %',
      'repeats detect 10 % spread 3 % power 90 %',
      'repeats equivalent 5 % spread 3 %',
      'repeats detect 10 % spread 3 % conditions 3',
    ],
  },
  evaluate(given) {
    const [detect, equivalent, spread] = ['detect', 'equivalent', 'spread'].map((option) => siOf(given, option));
    if (detect !== undefined && equivalent !== undefined) return refuse('repeats.both', {}, 'equivalent');
    if (spread === undefined) return refuse('option.missing', { option: 'spread' });
    const power = siOf(given, 'power') ?? 0.8;
    const confidence = siOf(given, 'confidence') ?? 0.95;
    const rest = { spread, power, confidence, conditions: siOf(given, 'conditions') ?? 2 };
    const found =
      detect !== undefined
        ? repeatsOf({ detect, ...rest })
        : equivalent !== undefined
          ? repeatsOf({ equivalent, ...rest })
          : refuse('option.missing', { option: 'detect' });
    return found.ok ? answer(found.value) : found;
  },
};

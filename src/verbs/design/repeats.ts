import { intervalHalfWidth, runsNeeded, smallestChange } from '../../statistics/repeats.ts';
import { siOf } from '../arguments.ts';
import type { RepeatsValue } from '../../values/repeats.ts';
import { answer, type Verb } from '../verb.ts';
import { refuse } from '../../result/result.ts';

/** Rows of the table, and how far it goes to show the number that is needed. */
const usualRows = 12;
const mostRows = 30;

export const repeats: Verb = {
  form: {
    verb: 'repeats',
    summary: 'Says how many runs of each a test needs.',
    help: 'The fewest runs of each of two conditions from which a two-sided t test shows a true reduction of `detect` with the given power: exact, by the noncentral t distribution (Johnson and Welch 1940). `spread` is the standard deviation of ln(level) from run to run, 4 % being common; it comes from four or more runs of one condition, or from an earlier comparison as `C.spread`. Fix the number before the first run: adding runs until a difference shows is no test. To support a claim of at least 15 %, the truth must exceed 15 % by what the table says.',
    operands: [],
    options: [
      {
        keyword: 'detect',
        doc: 'The reduction that is to be shown if it is there.',
        accepts: [{ type: 'quantity', dimension: 'ratio', above: 0, most: 0.99 }],
      },
      {
        keyword: 'spread',
        doc: 'Scatter from run to run.',
        accepts: [{ type: 'quantity', dimension: 'ratio', above: 0, most: 2 }],
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
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0.5, most: 0.9999 }],
        default: '95 %',
      },
    ],
    gives: 'repeats',
    examples: ['repeats detect 5 % spread 4 %', 'repeats detect 10 % spread 3 % power 90 %'],
  },
  evaluate(given) {
    const detect = siOf(given, 'detect');
    const spread = siOf(given, 'spread');
    if (detect === undefined || spread === undefined)
      return refuse(
        'option.missing',
        `repeats needs the ${detect === undefined ? 'reduction to detect' : 'spread from run to run'}, as in "repeats detect 5 % spread 4 %".`,
      );
    if (!(detect > 0 && detect < 1))
      return refuse('repeats.detect', 'The reduction to detect lies above 0 % and below 100 %.', 'detect');
    if (!(spread > 0)) return refuse('repeats.spread', 'Runs always scatter: the spread is above 0 %.', 'spread');
    const power = siOf(given, 'power') ?? 0.8;
    const confidence = siOf(given, 'confidence') ?? 0.95;
    if (!(power > 0 && power < 1)) return refuse('repeats.power', 'A power lies between 0 and 100 %.', 'power');
    if (!(confidence > 0.5 && confidence < 1))
      return refuse('confidence.range', 'A confidence lies between 50 % and 99.99 %.', 'confidence');
    const design = { spread, power, confidence };
    const needed = runsNeeded(-100 * detect, design);
    const value: RepeatsValue = {
      kind: 'repeats',
      detect,
      spread,
      power,
      confidence,
      runs: needed?.runs,
      ...(needed === undefined ? {} : { reached: needed.power }),
      table: rowsFor(needed?.runs).map((runs) => ({
        runs,
        smallestPercent: smallestChange(runs, design).reductionPercent,
        halfWidthPercent: 100 * Math.expm1(intervalHalfWidth(runs, spread, confidence)),
      })),
    };
    return answer(value);
  },
};

/** 2, 3, 4 … to the usual end, or a little past the number needed. */
function rowsFor(needed: number | undefined): number[] {
  const last = Math.max(usualRows, Math.min(mostRows, (needed ?? 0) + 2));
  const rows = Array.from({ length: last - 1 }, (_, k) => k + 2);
  return needed !== undefined && needed > last ? [...rows, needed] : rows;
}

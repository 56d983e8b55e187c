import { abbaOrder, driftBalance, orderText, placesOf, randomisedBlocks } from '../../statistics/order.ts';
import { hasFlag, option, operand, quantityIn, si, siOf, textOf } from '../arguments.ts';
import { sheetOfOrder } from '../../analysis/planning/sheetText.ts';
import type { OrderValue } from '../../values/order.ts';
import { answer, type Verb } from '../verb.ts';
import { refuse } from '../../result/result.ts';

const mostRuns = 100;

export const order: Verb = {
  form: {
    verb: 'order',
    summary: 'Gives an order in which to make the runs, and a run sheet for it.',
    help: 'Each pair of runs holds one of A and one of B. Without more, ABBA BAAB BAAB ABBA …: four runs cancel a steady drift, eight a curved one, and so on (the Thue–Morse rule). With `blocks`, the toss of a coin decides in each pair; the same seed gives the same order. All of A before all of B lets every drift of the day pass for a change.',
    operands: [
      {
        name: 'runs',
        doc: 'Runs of each condition.',
        accepts: [{ type: 'integer', least: 1, most: mostRuns }],
      },
    ],
    options: [
      { keyword: 'blocks', doc: 'Toss a coin for each pair.', accepts: [] },
      { keyword: 'seed', doc: 'Of the coin.', accepts: [{ type: 'integer', least: 0 }], default: '1' },
      {
        keyword: 'conditions',
        doc: 'What A and B are called in the run sheet: `conditions foam, gel`.',
        accepts: [{ type: 'channel' }],
        many: true,
        default: 'A, B',
      },
    ],
    gives: 'order',
    examples: ['order 4 conditions foam, gel', 'order 6 blocks seed 7'],
  },
  evaluate(given) {
    const runs = quantityIn(operand(given, 'runs'));
    const count = runs === undefined ? NaN : si(runs);
    if (!Number.isInteger(count) || count < 1 || count > mostRuns)
      return refuse('order.runs', `The runs of each condition are a whole number from 1 to ${mostRuns}.`, 'runs');
    const blocks = hasFlag(given, 'blocks');
    const seed = siOf(given, 'seed') ?? 1;
    if (!blocks && option(given, 'seed') !== undefined)
      return refuse('order.seed', 'A seed goes with blocks: without it nothing is left to chance.', 'seed');
    if (!Number.isInteger(seed)) return refuse('order.seed', 'A seed is a whole number.', 'seed');
    const names = (given.options.conditions ?? []).flatMap((argument) => textOf(argument) ?? []);
    if (names.length !== 0 && (names.length !== 2 || names[0] === names[1]))
      return refuse('order.conditions', 'An order is of two conditions, as in "conditions foam, gel".', 'conditions');
    const conditions: readonly [string, string] = names.length === 2 ? [names[0], names[1]] : ['A', 'B'];
    const sequence = blocks ? randomisedBlocks(count, seed) : abbaOrder(count);
    const places = placesOf(sequence);
    const value: OrderValue = {
      kind: 'order',
      scheme: blocks ? `Randomised blocks, seed ${seed}` : `ABBA in turn (${orderText(sequence)})`,
      sequence,
      leanPercent: driftBalance(places.a, places.b).steady,
      conditions,
      sheet: sheetOfOrder(sequence, conditions),
    };
    return answer(value);
  },
};

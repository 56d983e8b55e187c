import { mostRuns, runOrder } from '../../analysis/planning/runOrder.ts';
import { hasFlag, operand, quantityIn, si, siOf, textOf } from '../arguments.ts';
import { refuse } from '../messages/evidence.ts';
import { answer, type Verb } from '../verb.ts';

const usualSeed = 1;

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
    if (runs === undefined) throw new Error('order without runs');
    const seed = siOf(given, 'seed');
    const isByChance = hasFlag(given, 'blocks');
    if (!isByChance && seed !== undefined) return refuse('order.seed', {}, 'seed');
    const names = (given.options.conditions ?? []).flatMap((argument) => textOf(argument) ?? []);
    if (names.length !== 0 && (names.length !== 2 || names[0] === names[1]))
      return refuse('order.conditions', {}, 'conditions');
    const [a = 'A', b = 'B'] = names;
    return answer(runOrder(si(runs), isByChance ? (seed ?? usualSeed) : undefined, [a, b]));
  },
};

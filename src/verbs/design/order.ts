import { mostConditions, mostRuns, runOrder } from '../../analysis/planning/runOrder.ts';
import { answer, hasFlag, operand, quantityIn, si, siOf, textOf, type Verb, refuse } from '../verb.ts';

const usualSeed = 1;

export const order: Verb = {
  form: {
    verb: 'order',
    summary: 'Gives an order in which to make the runs, and a run sheet for it.',
    help: 'Without more, an interleaved order: ABBA BAAB … of 4 and 8 runs of each (the Thue–Morse rule), ABBAAB of 3, and others that let neither a steady nor, as far as may be, a curved drift pass for a change. `compare` takes the drift out when the order stands in the run sheet. Of three and more conditions, the rows of a Williams design (Williams 1949), in which each condition follows each other equally often, every row beside its mirror image, so that a steady drift cancels. With `blocks`, chance decides in each block of one run each, and the sheet names the blocks as pairs, within which `compare` then compares; the same seed gives the same order. On several days, run a whole order each day and fill in the column `day`. Of all of A before all of B no verdict is given.',
    operands: [
      {
        name: 'runs',
        doc: 'Runs of each condition.',
        accepts: [{ type: 'integer', least: 1, most: mostRuns }],
      },
    ],
    options: [
      { keyword: 'blocks', doc: 'Let chance decide in each block of one run each.', accepts: [] },
      { keyword: 'seed', doc: 'Of the chance.', accepts: [{ type: 'integer', least: 0 }], default: '1' },
      {
        keyword: 'conditions',
        doc: 'What is compared, the baseline first, as the run sheet calls it: `conditions foam, gel`.',
        accepts: [{ type: 'channel', role: 'label' }],
        many: true,
        default: 'A, B',
      },
    ],
    gives: 'order',
    examples: ['order 4 conditions foam, gel', 'order 6 conditions rigid, rubber, cork', 'order 6 blocks seed 7'],
  },
  evaluate(given) {
    const runs = quantityIn(operand(given, 'runs'));
    if (runs === undefined) throw new Error('order without runs');
    const seed = siOf(given, 'seed');
    const isByChance = hasFlag(given, 'blocks');
    if (!isByChance && seed !== undefined) return refuse('order.seed', {}, 'seed');
    const names = (given.options.conditions ?? []).flatMap((argument) => textOf(argument) ?? []);
    if (names.length === 1 || names.length > mostConditions || new Set(names).size < names.length)
      return refuse('order.conditions', { named: names, most: mostConditions }, 'conditions');
    const conditions = names.length === 0 ? ['A', 'B'] : names;
    return answer(runOrder(si(runs), isByChance ? (seed ?? usualSeed) : undefined, conditions));
  },
};

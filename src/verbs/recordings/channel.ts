import { withChannels } from '../../analysis/recordings/channels.ts';
import { answerOf, textsIn, valueOf, type Verb } from '../verb.ts';

export const channel: Verb = {
  takesLong: true,
  each: 'runs',
  views: true,
  passesFaults: true,
  form: {
    verb: 'channel',
    summary: 'Takes one channel of each run.',
    help: 'A recognised axis of acceleration is called `x`, `y` or `z` whatever its header spells; the header itself, in quotes or as a word, is understood too.',
    operands: [
      { name: 'runs', doc: 'The runs to take it from.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      { name: 'channel', doc: 'Its name, or its header in quotes.', accepts: [{ type: 'channel' }], many: true },
    ],
    options: [],
    gives: 'runs',
    examples: ['foam = load "raw/brick-foam-*.csv.gz"\nchannel foam z'],
  },
  evaluate(given) {
    return answerOf(withChannels(valueOf(given, 'runs', 'runs'), textsIn(given.operands.channel)));
  },
};

import { page, type MessagePages } from '../../result/pages.ts';
import type { WordFacts } from '../messages/evidence.ts';
import { after } from './ground.ts';

const pads = ['foam', 'gel']
  .map((pad) => `${pad} = load "raw/brick-${pad}-*.csv.gz" | channel z | trim 10..70 s`)
  .join('\n');
const bySheet = ['foam', 'gel']
  .map((pad) => `${pad} = load sheet "raw/runs.csv" where condition ${pad}, surface brick | channel z | trim 12..72 s`)
  .join('\n');
const ofPads = (...lines: readonly string[]): string => after(lines.join('\n'), pads);

/** Of words that do not fit together. That of `option.missing` stands among the messages of the text. */
export const wordPages: MessagePages<Omit<WordFacts, 'option.missing'>> = {
  'claim.words': page(
    'A claim that does not say what is claimed',
    'A claim has a direction, and a figure with its unit where `at-most`, `about` or `no-worse` needs one.',
    ofPads('c = compare foam with gel over 10..50 Hz', 'claim c reduction 15'),
    ofPads('c = compare foam with gel over 10..50 Hz', 'claim c reduction 15 %'),
  ),
  'compare.methods': page(
    'Two methods at once',
    'Pairs and a trend each take another kind of wandering out of the same runs.',
    ofPads('compare foam with gel over 10..50 Hz paired trend'),
    ofPads('compare foam with gel over 10..50 Hz paired'),
  ),
  'order.seed': page(
    'A seed without chance',
    'Only `blocks` tosses a coin; the usual order is mirrored and the same each time.',
    'order 4 seed 7',
    'order 4 blocks seed 7',
  ),
  'order.conditions': page(
    'A single condition, or one twice',
    'An order mixes the runs of two conditions or more.',
    'order 4 conditions foam, foam',
    'order 4 conditions foam, gel',
  ),
  'adjust.words': page(
    'An adjustment without its figure',
    'A power is a plain number after `exponent`, and its standard uncertainty one after `uncertainty`.',
    ofPads('compare foam with gel over 10..50 Hz adjust speed uncertainty 0.2'),
    after('compare foam with gel over 10..50 Hz adjust speed exponent 1.5 uncertainty 0.2', bySheet),
  ),
  'repeats.both': page(
    'Two aims at once',
    'To show a difference and to show that there is none take different numbers of runs.',
    'repeats detect 5 % equivalent 5 % spread 4 %',
    'repeats detect 5 % spread 4 %',
  ),
};

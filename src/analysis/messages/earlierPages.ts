import { page, type MessagePages } from '../../result/pages.ts';
import type { EarlierFacts } from './earlier.ts';

const good = 'earlier "spring/ride.record.json"';
const compared = [
  'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s',
  'gel = load "raw/brick-gel-*.csv.gz" | channel z | trim 10..70 s',
  'C = compare foam with gel over 10..50 Hz',
].join('\n');
const pooled = (record: string): string => `${compared}\nE = earlier "spring/${record}.record.json"\npool C, E`;

/** A page for every message about earlier studies and their pooling; what was found is told as sentences. */
export const earlierPages: MessagePages<Omit<EarlierFacts, 'result.pooled' | 'result.pooled-guard'>> = {
  'earlier.record': page(
    'A file that is no record',
    'A record is JSON with the notebook, the raw files and the results; one that is cut short says nothing that may be trusted.',
    'earlier "spring/cut.record.json"',
    good,
  ),
  'earlier.version': page(
    'A record of another version',
    'What stands where in a record depends on its version, and only one is known here.',
    'earlier "spring/later.record.json"',
    good,
  ),
  'earlier.row': page(
    'A recorded change that does not fit itself',
    'The change in percent and in dB say the same, and the interval holds it; where they do not, somebody wrote into the record.',
    'earlier "spring/edited.record.json"',
    good,
  ),
  'earlier.absent': page(
    'A name that is not in the record',
    'Results have the names of the notebook that they are of; `table` of the whole record lists them.',
    'earlier "spring/ride.record.json" of D',
    'earlier "spring/ride.record.json" of C',
  ),
  'earlier.empty': page(
    'A record without results',
    'There is nothing to read in it.',
    'earlier "spring/empty.record.json"',
    good,
  ),
  'earlier.label': page(
    'One label for several studies',
    'Studies are told apart by their names.',
    'earlier "spring/ride.record.json", "spring/two-bands.record.json" label "spring"',
    'earlier "spring/ride.record.json" label "spring"',
  ),
  'pool.few': page(
    'One study to be pooled',
    'Pooling makes one change of several.',
    `${compared}\npool C`,
    pooled('ride'),
  ),
  'pool.figures': page(
    'Single figures to be pooled',
    'Only a change has a standard error and is free of the level of its study.',
    `${compared}\nE = earlier "spring/ride.record.json" of L\npool C, E`,
    pooled('ride'),
  ),
  'pool.metric': page(
    'Changes of different measures',
    'A dose and an r.m.s. answer to the same cause by different amounts.',
    pooled('vdv'),
    pooled('ride'),
  ),
  'pool.none': page(
    'Studies that share no change',
    'A change can be pooled with one of the same band, axis and conditions.',
    pooled('other-band'),
    pooled('ride'),
  ),
  'pool.inference': page(
    'A change without a standard error',
    'One run a side tells nothing of its scatter, so it has no place in an interval.',
    pooled('one-run'),
    pooled('ride'),
  ),
  'pool.shared': page(
    'One recording in two studies',
    'What is counted twice makes an interval narrower than the data allow.',
    'E = earlier "spring/ride.record.json", "spring/same.record.json"\npool E',
    pooled('ride'),
  ),
  'pool.twice': page(
    'Two studies of one name',
    'The result names its studies, and could not.',
    `${compared}\nE = earlier "spring/ride.record.json" label "C"\npool C, E`,
    pooled('ride'),
  ),
  'pool.left': page(
    'Changes that not every study has',
    'They stand in the picture beside the others (`plot C, E`), and are not pooled.',
    pooled('two-bands'),
    pooled('ride'),
  ),
  'pool.names': page(
    'Conditions of different names',
    'Each study has but one, so they are taken as one and the same; the names do not say so.',
    pooled('rubber'),
    pooled('ride'),
  ),
};

import type { SetFacts } from '../messages/set.ts';
import { example, type Pages } from './page.ts';

const set = 'runs = load "run-*.csv"\ncheck runs';

export const setPages: Pages<SetFacts> = {
  'set-rate': {
    title: 'Another rate than the set’s',
    why: 'The setting or the sensor’s clock was changed between runs.',
    wrong: example('run-1 and run-2 at 400 Hz, run-3 at 200 Hz', set),
    right: example('all runs at 400 Hz', set),
  },
  'set-length': {
    title: 'Another length than the set’s',
    why: 'The route or the speed was another, or a part is cut off.',
    wrong: example('run-1 and run-2 of 60 s, run-3 of 85 s', set),
    right: example('the same stretch of all', 'runs = load "run-*.csv" | trim 0..60 s\ncheck runs'),
  },
  'set-gravity': {
    title: 'Another orientation of the sensor',
    why: 'Gravity points another way than in the first run, so that the axes are mixed.',
    wrong: example('run-3 with the sensor turned by 20°', set),
    right: example('the resultant, which no turn changes', 'runs = load "run-*.csv" | resultant\nlevels runs'),
  },
  'set-still': {
    title: 'Another level at rest',
    why: 'The quietest second of the run is much louder or quieter than that of the others.',
    wrong: example('run-3 with a fan running beside it', set),
    right: example('all runs with the fan off', set),
  },
  'set-channels': {
    title: 'A channel that other runs have',
    why: 'Only channels that all runs have can be compared.',
    wrong: example('run-1 and run-2 with x, y and z, run-3 with z', set),
    right: example('the channel that all have', 'runs = load "run-*.csv" channel z\ncheck runs'),
  },
  'set-line': {
    title: 'A line at one frequency in every run',
    why: 'Mains, fans and pumps go on at one frequency whatever is tested, and make a change seem smaller than it is.',
    wrong: example('a hum of 50 Hz in every run, at 1.0 and at 1.3 m/s', set),
    right: example('the fan switched off', set),
  },
  'set-copy': {
    title: 'One recording twice',
    why: 'A copy under another name is no second run: it would make the evidence look better than it is.',
    wrong: example('run-3.csv is a copy of run-2.csv', set),
    right: example('run-3.csv is a run of its own', set),
  },
};

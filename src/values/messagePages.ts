import { page, type MessagePage } from '../result/pages.ts';
import type { ValueFacts } from './messages.ts';

const all = 'all = load "raw/brick-foam-1.csv.gz"';

/**
 * Codes without a page: the checker of the text says the same of every kind before anything runs, and has the page of
 * the two that it shares.
 */
type OfTheText = 'field.kind' | 'field.unknown' | 'pick.kind';

/** Of fields and picks of a value that is known only when a cell runs. */
export const valuePages: Readonly<Record<Exclude<keyof ValueFacts, OfTheText>, MessagePage>> = {
  'field.many': page(
    'A field of several rows',
    'A number is read off one row: choose a channel, or pick a run or a band, first.',
    `${all}\nL = levels all\nL.rms`,
    `${all}\nL = levels (channel all z)\nL.rms`,
  ),
  'field.absent': page(
    'A number that is not there',
    'With one run each there is no interval, and so no end of it to read off.',
    'foam = load "raw/brick-foam-1.csv.gz" channel z\ngel = load "raw/brick-gel-1.csv.gz" channel z\nC = compare foam with gel over 10..50 Hz\nC.low',
    'foam = load "raw/brick-foam-1.csv.gz" channel z\ngel = load "raw/brick-gel-1.csv.gz" channel z\nC = compare foam with gel over 10..50 Hz\nC.change',
  ),
  'unit.other': page(
    'A result in a unit of something else',
    'What is in g is told in any unit of acceleration; a speed has to be made of it first.',
    'all = load "raw/brick-foam-1.csv.gz"\nlevels all in mm/s',
    'all = load "raw/brick-foam-1.csv.gz"\nlevels all in mm/s^2',
  ),
  'pick.outside': page(
    'A number of a run that is not there',
    'Runs are counted from 1, in the order in which they were loaded.',
    `${all}\nlevels all[2]`,
    `${all}\nlevels all[1]`,
  ),
};

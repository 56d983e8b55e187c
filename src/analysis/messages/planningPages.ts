import { page, type MessagePages } from '../../result/pages.ts';
import type { PlanningFacts } from './planning.ts';

const pads = [
  'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s',
  'gel = load "raw/brick-gel-*.csv.gz" | channel z | trim 10..70 s',
];
const after = (...lines: readonly string[]): string => [...pads, ...lines].join('\n');
const plan = 'p = plan "Is it less?" channel z, primary 10..50 Hz repeats 4';

/** A page for every message about plans and numbers of runs. */
export const planningPages: MessagePages<PlanningFacts> = {
  'plan.question': page(
    'A plan without its question',
    'What is settled is settled for a question.',
    'plan ""',
    'plan "Is it less?" channel z, primary 10..50 Hz repeats 4',
  ),
  'plan.order': page(
    'An order that is none of the plan’s',
    'An order is written in A and B, and holds as many of each as `repeats` says.',
    'plan "Is it less?" channel z, primary 10..50 Hz repeats 4 order "ABBA"',
    'plan "Is it less?" channel z, primary 10..50 Hz repeats 4 order "ABBA BAAB"',
  ),
  'plan.open': page(
    'A plan that leaves something open',
    'Band, channel and number of runs are chosen before the data are seen, or a verdict rests on a choice made after.',
    'plan "Is it less?"',
    'plan "Is it less?" channel z, primary 10..50 Hz repeats 4',
  ),
  'repeats.power': page(
    'A power that chance reaches',
    'A test shows a change in so many cases where there is none; a power has to be above that.',
    'repeats detect 5 % spread 4 % power 30 % confidence 60 %',
    'repeats detect 5 % spread 4 % power 80 %',
  ),
  'compare.unplanned': page(
    'A band that no plan names',
    'A band that was picked after looking at the spectra shows a difference more often than chance should.',
    after('compare foam with gel over 10..50 Hz'),
    after(plan, 'compare foam with gel plan p'),
  ),
  'plan.deviates': page(
    'Something was done otherwise than planned',
    'A departure from the plan is no mistake, but a reader must know of it.',
    after(plan, 'compare foam with gel over 10..60 Hz plan p'),
    after(plan, 'compare foam with gel plan p'),
  ),
};

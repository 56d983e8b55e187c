import { detail, figure } from './columns.ts';
import type { Description } from './description.ts';
import { finite, type Json } from './jsonNumbers.ts';
import type { Message } from '../result/result.ts';
import type { Claim } from '../statistics/claimForm.ts';
import type { Band } from './band.ts';
import { ageJson, commitJson, type PlanAge } from './planAge.ts';
import type { Commit } from './ports.ts';
import { inShort } from './short.ts';
import { counted } from '../result/words.ts';

export type { Claim };

/** What was settled before the data were looked at. */
export interface PlanValue {
  readonly kind: 'plan';
  /** Everything the plan states, in words, in a fixed order. */
  readonly entries: readonly { readonly word: string; readonly text: string }[];
  /** SHA-256 of the plan's text (its entries, one a line), lower-case hex. */
  readonly hash: string;
  /** The same in the terms that results are held against; what is left out was not settled. */
  readonly settled?: Settled;
  /** Since when a notebook in git holds it as it is written; null where none does, undefined where there is no history. */
  readonly committed?: Commit | null;
}

export interface Settled {
  readonly question: string;
  readonly metric?: string;
  readonly channel?: string;
  readonly primary?: Band;
  readonly bands?: readonly Band[];
  readonly claim?: Claim;
  /** Where the claim stands. */
  readonly source?: string;
  /** Fractions. */
  readonly margin?: number;
  readonly confidence?: number;
  readonly method?: 'paired' | 'trend';
  /** Of each condition. */
  readonly runs?: number;
  /** As letters: `ABBABAAB`. */
  readonly order?: string;
  /** What the baseline and the conditions held against it are called. */
  readonly baseline?: string;
  readonly conditions?: readonly string[];
  /** Whether every two conditions are compared. */
  readonly isAllPairs?: boolean;
  /** Columns of the run sheet within whose words runs are compared. */
  readonly within?: readonly string[];
  readonly adjust?: readonly PlannedAdjustment[];
  /** Whether one scatter stands for all runs. */
  readonly isPooled?: boolean;
}

/** A covariate of the run sheet to be taken out: by a stated power, else by a slope that is fitted. */
export interface PlannedAdjustment {
  /** Without its unit. */
  readonly column: string;
  /** Levels go with the covariate to this power; undefined where it is fitted. */
  readonly exponent: number | undefined;
  /** Standard uncertainty of the power. */
  readonly uncertainty: number | undefined;
}

/** How a result stands to the plan it was asked to follow. */
export interface PlanFollowed {
  readonly name: string;
  readonly hash: string;
  readonly question: string;
  readonly claim?: Claim;
  readonly source?: string;
  /** Every band that it names, the primary one first. */
  readonly bands?: readonly Band[];
  /** Those deviations that forbid a verdict. */
  readonly unplanned?: readonly Message[];
  /** How old it is beside the recordings; undefined where no history tells. */
  readonly age?: PlanAge;
  /** Each thing that is not as it was planned, its message a clause; empty when the plan was followed. */
  readonly deviations: readonly Message[];
}

export const planKind = {
  kind: 'plan',
  words: 'a plan',
  summary: ({ entries }) => inShort('a plan', counted(entries.length, 'entry', 'entries')),
  caption: () => 'Plan',
  whole: [figure('sha256', '', ({ hash }) => hash), detail('committed', ({ committed }) => commitJson(committed))],
  rows: {
    key: 'entries',
    of: ({ entries }) => entries,
    each: ['item', 'an item'],
    names: [],
    columns: [
      figure('word', '', ({ word }) => word, { heading: 'item' }),
      figure('text', '', ({ text }) => text, { heading: 'settled as' }),
    ],
  },
  runs: () => [],
} satisfies Description<PlanValue, PlanValue['entries'][number]>;

/** What JSON says of how a result stands to its plan; null without one. */
export const followedJson = (plan: PlanFollowed | undefined): Json =>
  plan === undefined
    ? null
    : {
        name: plan.name,
        question: plan.question,
        sha256: plan.hash,
        follows: plan.deviations.length === 0,
        age: ageJson(plan.age),
        deviations: plan.deviations.map(({ message }) => message),
      };

/** What JSON says of an adjustment of the levels. */
export const adjustmentJson = ({ column, exponent, uncertainty }: PlannedAdjustment): Json => ({
  column,
  exponent: finite(exponent),
  uncertainty: finite(uncertainty),
});

import { comparedRuns, excludedOfSides, type ComparisonRow, type ComparisonValue } from './comparison.ts';
import type { DrawnDescription } from './description.ts';
import { finite } from './jsonNumbers.ts';
import { followedJson } from './plan.ts';
import type { Band } from './band.ts';

/** What became of a claim. */
export interface VerdictValue {
  readonly kind: 'verdict';
  readonly verdict: 'supported' | 'contradicted' | 'not shown';
  /** The claim in words, as it was judged. */
  readonly claim: string;
  readonly source: string | undefined;
  readonly band: Band;
  readonly comparison: ComparisonValue;
  readonly row: ComparisonRow;
  /** Ratios B/A that the claim allows; an end that is open is undefined. */
  readonly claimed: { readonly from: number | undefined; readonly to: number | undefined };
  /** -(B/A - 1) in percent: positive for a reduction; its interval low to high. */
  readonly reductionPercent: number;
  readonly lowPercent: number | undefined;
  readonly highPercent: number | undefined;
  /** The same change as a percentage of mean square, for claims that mean power. */
  readonly powerReductionPercent: number;
  /** One sentence that can be quoted. */
  readonly sentence: string;
  /** Why the verdict is what it is, and why it is no stronger: one sentence each. */
  readonly because: readonly string[];
  /** Those of them that `sentence` does not tell already. */
  readonly untold: readonly string[];
  /** What would settle it, if it is not shown: a clause. */
  readonly settle: string | undefined;
}

export const verdictKind = {
  kind: 'verdict',
  words: 'a verdict',
  caption: () => 'Claim against measurement',
  whole: [
    { key: 'claim', read: ({ claim }) => claim },
    { key: 'verdict', read: ({ verdict }) => verdict },
    { key: 'from', unit: 'Hz', read: ({ band }) => band.from },
    { key: 'to', unit: 'Hz', read: ({ band }) => band.to },
    {
      key: 'reduction',
      unit: '%',
      read: (value) => value.reductionPercent,
      doc: 'The reduction found of a verdict',
      dimension: 'ratio',
    },
    {
      key: 'low',
      unit: '%',
      read: (value) => value.lowPercent,
      doc: 'The lower end of the reduction’s interval of a verdict',
      dimension: 'ratio',
    },
    {
      key: 'high',
      unit: '%',
      read: (value) => value.highPercent,
      doc: 'The upper end of the reduction’s interval of a verdict',
      dimension: 'ratio',
    },
    {
      key: 'power_reduction',
      heading: 'reduction of mean square',
      unit: '%',
      read: (value) => value.powerReductionPercent,
      doc: 'The reduction of mean square of a verdict',
      dimension: 'ratio',
    },
    { key: 'because', json: ({ because }) => because.join(' ') },
    { key: 'source', json: ({ source }) => source ?? null },
    { key: 'claimed_ratio_from', json: ({ claimed }) => finite(claimed.from) },
    { key: 'claimed_ratio_to', json: ({ claimed }) => finite(claimed.to) },
    { key: 'metric', json: ({ comparison }) => comparison.metric },
    { key: 'channel', json: ({ comparison }) => comparison.channel },
    { key: 'confidence', json: ({ comparison }) => comparison.confidence },
    { key: 'plan', json: ({ comparison }) => followedJson(comparison.plan) },
    { key: 'excluded', json: ({ comparison }) => excludedOfSides(comparison) },
    { key: 'settle', json: ({ settle }) => settle ?? null },
    { key: 'sentence', json: (value) => value.sentence },
  ],
  jsonFirst: [
    ...['verdict', 'reduction', 'low', 'high', 'because', 'power_reduction', 'claim', 'source'],
    ...['claimed_ratio_from', 'claimed_ratio_to'],
  ],
  drawn: 'itself',
  runs: ({ comparison }) => comparedRuns(comparison),
} satisfies DrawnDescription<VerdictValue>;

import { detail, field, figure } from './columns.ts';
import { changeParts, comparedRuns, excludedOfSides, type ComparisonValue } from './comparison.ts';
import type { ComparisonRow } from './comparisonParts.ts';
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
  /** Whether the claim is one of power, which `claimed` has as amplitude. */
  readonly isOfPower?: boolean;
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

const isInferred = ({ lowPercent }: VerdictValue): boolean => lowPercent !== undefined;

export const verdictKind = {
  kind: 'verdict',
  words: 'a verdict',
  summary: () => 'a verdict',
  caption: () => 'Claim against measurement',
  whole: [
    figure('claim', '', ({ claim }) => claim),
    figure('verdict', '', ({ verdict }) => verdict),
    figure('from', 'Hz', ({ band }) => band.from),
    figure('to', 'Hz', ({ band }) => band.to),
    field('reduction', '%', (value) => value.reductionPercent, 'The reduction found of a verdict', {
      parts: ({ row, comparison }) => changeParts(row, comparison, -(100 + row.changePercent)),
    }),
    field('low', '%', (value) => value.lowPercent, 'The lower end of the reduction’s interval of a verdict', {
      inTableOf: isInferred,
    }),
    field('high', '%', (value) => value.highPercent, 'The upper end of the reduction’s interval of a verdict', {
      inTableOf: isInferred,
    }),
    field('power_reduction', '%', (value) => value.powerReductionPercent, 'The reduction of mean square of a verdict', {
      heading: 'reduction of mean square',
    }),
    detail('because', ({ because }) => because.join(' '), 'text'),
    detail('source', ({ source }) => source ?? null, 'text'),
    detail('claimed_ratio_from', ({ claimed }) => finite(claimed.from), 'number'),
    detail('claimed_ratio_to', ({ claimed }) => finite(claimed.to), 'number'),
    detail('metric', ({ comparison }) => comparison.metric, 'text'),
    detail('channel', ({ comparison }) => comparison.channel, 'text'),
    detail('confidence', ({ comparison }) => comparison.confidence, 'number'),
    detail('plan', ({ comparison }) => followedJson(comparison.plan), 'parts'),
    detail('excluded', ({ comparison }) => excludedOfSides(comparison), 'rows'),
    detail('settle', ({ settle }) => settle ?? null, 'text'),
    detail('sentence', (value) => value.sentence, 'text'),
  ],
  jsonFirst: [
    ...['verdict', 'reduction', 'low', 'high', 'because', 'power_reduction', 'claim', 'source'],
    ...['claimed_ratio_from', 'claimed_ratio_to'],
  ],
  drawn: 'itself',
  runs: ({ comparison }) => comparedRuns(comparison),
} satisfies DrawnDescription<VerdictValue>;

import type { Band } from './band.ts';
import type { ComparisonRow, ComparisonValue } from './comparison.ts';

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
  /** Why the verdict is what it is, and why it is no stronger. */
  readonly because: readonly string[];
  /** What would settle it, if it is not shown. */
  readonly settle: string | undefined;
}

import { detail, field, figure } from './columns.ts';
import type { Description } from './description.ts';
import { finite } from './jsonNumbers.ts';
import type { Quantity } from '../units/unit.ts';
import { effectiveDf, standardUncertainty, type UncertaintyParts } from '../units/uncertainty.ts';
import { formatQuantity } from '../units/format.ts';
import { quantityText } from './uncertainText.ts';

export interface QuantityValue {
  readonly kind: 'quantity';
  readonly quantity: Quantity;
  /** What its inputs contribute to its standard uncertainty; undefined where it is taken as exact. */
  readonly parts?: UncertaintyParts;
  /** The interval that was asked for: half of it is the factor times the standard uncertainty. */
  readonly coverage?: Coverage;
}

export interface Coverage {
  /** 0 to 1. */
  readonly confidence: number;
  /** k of JCGM 100:2008, 6.2. */
  readonly factor: number;
}

const uncertaintyOf = ({ parts }: QuantityValue): number | undefined => parts && standardUncertainty(parts);

const expandedOf = (value: QuantityValue): number | undefined => {
  const size = uncertaintyOf(value);
  return size === undefined || value.coverage === undefined ? undefined : value.coverage.factor * size;
};

function dfOf({ parts }: QuantityValue): number | undefined {
  const df = parts && effectiveDf(parts);
  return df === undefined || !Number.isFinite(df) ? undefined : df;
}

const own = ({ quantity }: QuantityValue): Quantity['unit'] => quantity.unit;

const isUncertain = ({ parts }: QuantityValue): boolean => parts !== undefined;
const isCovered = ({ coverage }: QuantityValue): boolean => coverage !== undefined;

export const quantityKind = {
  kind: 'quantity',
  words: 'a quantity',
  summary: (value) => (isUncertain(value) ? quantityText(value, 4) : formatQuantity(value.quantity, 4)),
  caption: () => '',
  whole: [
    figure('value', own, ({ quantity }) => quantity.value),
    detail('unit', ({ quantity }) => quantity.unit.symbol, 'text'),
    field('uncertainty', own, uncertaintyOf, 'The standard uncertainty of a quantity', {
      inTableOf: isUncertain,
      optional: true,
      json: (value) => (isUncertain(value) ? finite(uncertaintyOf(value)) : undefined),
    }),
    figure('degrees_of_freedom', '', dfOf, {
      heading: 'degrees of freedom',
      inTableOf: (value) => dfOf(value) !== undefined,
      optional: true,
      json: (value) => dfOf(value),
    }),
    figure('expanded', own, expandedOf, {
      heading: 'expanded uncertainty',
      inTableOf: isCovered,
      optional: true,
      json: (value) => (isCovered(value) ? finite(expandedOf(value)) : undefined),
    }),
    figure('coverage', '%', ({ coverage }) => coverage && 100 * coverage.confidence, {
      inTableOf: isCovered,
      optional: true,
      json: ({ coverage }) => coverage?.confidence,
    }),
    figure('coverage_factor', '', ({ coverage }) => coverage?.factor, {
      heading: 'k',
      inTableOf: isCovered,
      optional: true,
      json: ({ coverage }) => coverage?.factor,
    }),
    detail(
      'inputs',
      ({ parts }) => parts?.map(({ input, size, df }) => ({ input, size: finite(size), df: finite(df) })),
      'rows',
    ),
  ],
  runs: () => [],
} satisfies Description<QuantityValue>;

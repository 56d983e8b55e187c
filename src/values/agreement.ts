import { detail, field, figure } from './columns.ts';
import type { Description } from './description.ts';
import type { Unit } from '../units/unit.ts';

/** Whether two quantities agree within what is known of both. Figures are in one unit. */
export interface AgreementValue {
  readonly kind: 'agreement';
  readonly agrees: boolean;
  readonly unit: Unit;
  readonly a: AgreementSide;
  readonly b: AgreementSide;
  /** a - b, and its standard uncertainty with what both share taken out. */
  readonly difference: number;
  readonly uncertainty: number;
  /** Infinity where all inputs are known so well. */
  readonly df: number;
  /** 0 to 1. */
  readonly confidence: number;
  /** k: the expanded uncertainty of the difference is k times the standard one. */
  readonly factor: number;
  readonly sentence: string;
}

export interface AgreementSide {
  readonly name: string;
  readonly value: number;
  /** Standard; undefined of an exact value. */
  readonly uncertainty: number | undefined;
}

const own = ({ unit }: AgreementValue): Unit => unit;

const expandedDifference = ({ factor, uncertainty }: AgreementValue): number => factor * uncertainty;

/** |d|/U: at most 1 where both agree. */
const equivalenceDegree = (value: AgreementValue): number => Math.abs(value.difference) / expandedDifference(value);

export const agreementKind = {
  kind: 'agreement',
  words: 'an agreement',
  summary: ({ agrees, a, b }) => `${a.name} and ${b.name} ${agrees ? 'agree' : 'do not agree'}`,
  caption: ({ a, b }) => `${a.name} held against ${b.name}`,
  whole: [
    figure('agrees', '', ({ agrees }) => agrees),
    detail('unit', ({ unit }) => unit.symbol, 'text'),
    figure('a', own, ({ a }) => a.value, { heading: ({ a }) => a.name }),
    figure('a_uncertainty', own, ({ a }) => a.uncertainty, { heading: ({ a }) => `u(${a.name})` }),
    figure('b', own, ({ b }) => b.value, { heading: ({ b }) => b.name }),
    figure('b_uncertainty', own, ({ b }) => b.uncertainty, { heading: ({ b }) => `u(${b.name})` }),
    field('difference', own, ({ difference }) => difference, 'The difference of both of an agreement', {
      parts: (_, { difference, uncertainty, df, a, b }) => [
        { input: `difference of ${a.name} and ${b.name}, ${difference}`, size: uncertainty, df },
      ],
    }),
    figure('uncertainty', own, ({ uncertainty }) => uncertainty, { heading: 'u of the difference' }),
    figure('expanded', own, expandedDifference, { heading: 'U of the difference' }),
    field('degree', '', equivalenceDegree, 'The degree of equivalence |d|/U of an agreement', {
      heading: 'degree of equivalence',
    }),
    figure('degrees_of_freedom', '', ({ df }) => (Number.isFinite(df) ? df : undefined), {
      heading: 'degrees of freedom',
    }),
    figure('coverage_factor', '', ({ factor }) => factor, { heading: 'k' }),
    figure('confidence', '', ({ confidence }) => confidence),
    detail('names', ({ a, b }) => [a.name, b.name], 'texts'),
    detail('sentence', ({ sentence }) => sentence, 'text'),
  ],
  runs: () => [],
} satisfies Description<AgreementValue>;

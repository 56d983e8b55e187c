import { roundedSI } from '../units/arithmetic.ts';
import { sameDimension } from '../units/dimension.ts';
import type { Checked } from './checked.ts';
import type { Amount, Coverage, Expression, Limits, Uncertain } from './tree.ts';
import { untyped, type Typed, type Work } from './work.ts';

/** How a part of arithmetic and a literal quantity are checked. */
interface Parts {
  readonly arithmetic: (node: Expression, work: Work) => Typed;
  readonly amount: (node: Amount, work: Work) => Typed;
}

/** A half-width in standard uncertainties. */
const halfWidths: Readonly<Record<Limits, number>> = { rectangular: Math.sqrt(3), triangular: Math.sqrt(6) };

const unknown: Typed = { ...untyped, kind: 'quantity' };

/**
 * A quantity with its standard uncertainty: `160 ± 5 N/mm` has one unit for both, `160 N/mm ± 3 %` a percentage of the
 * quantity, `160 N/mm ± 5` the quantity's unit. Of limits the standard uncertainty is the half-width over the square root of 3, and
 * of 6 where values in the middle are the likelier (JCGM 100:2008, 4.3.7 and 4.3.9).
 */
export function checkUncertain({ of, by, limits, freedom, place }: Uncertain, work: Work, parts: Parts): Typed {
  const literal = of.type === 'number' ? of : undefined;
  const shared = literal?.unit === undefined && by.type === 'number' ? by.unit : undefined;
  const value = parts.arithmetic(literal && shared ? { ...literal, unit: shared } : of, work);
  if (by.type === 'missing') return unknown;
  const size = parts.amount(by.unit === undefined && literal?.unit ? { ...by, unit: literal.unit } : by, work);
  if (!size.constant || !value.checked) return unknown;
  const { constant } = size;
  const relative = constant.unit.symbol === '%';
  if (value.dimension && !relative && !sameDimension(value.dimension, constant.unit.dimension)) {
    work.report('uncertainty.dimension', by.place, { of: value.dimension, by: constant.unit.dimension });
    return unknown;
  }
  if (freedom !== undefined && !(freedom.value >= 1)) {
    work.report('uncertainty.freedom', freedom.place, {});
    return unknown;
  }
  const standard = { ...constant, value: constant.value / (limits === undefined ? 1 : halfWidths[limits]) };
  const checked: Checked = { type: 'uncertain', of: value.checked, by: standard, freedom: freedom?.value, place };
  return { ...value, checked };
}

/** A quantity with its expanded uncertainty at a level of confidence. */
export function checkCoverage({ of, level, place }: Coverage, work: Work, parts: Parts): Typed {
  const value = parts.arithmetic(of, work);
  if (level.type === 'missing') return unknown;
  const { constant } = parts.amount(level, work);
  const share = constant && roundedSI(constant);
  if (
    constant &&
    (constant.unit.dimension.level !== 0 || !(share! >= 0.5 && share! <= 0.9999) || isMeasured(constant.unit))
  ) {
    work.report('coverage.level', level.place, {
      found: work.text.slice(level.place.from, level.place.to),
    });
    return unknown;
  }
  if (share === undefined || !value.checked) return unknown;
  return { ...value, checked: { type: 'coverage', of: value.checked, level: share, place } };
}

const isMeasured = ({ symbol }: { readonly symbol: string }): boolean => symbol !== '' && symbol !== '%';

import { combine, dimensionless } from './dimension.ts';
import type { Dimension, Unit } from './unit.ts';
import { powerOf } from '../numbers/power.ts';

/** A factor of a compound unit: a unit without operators, or a bracketed compound such as `(m/s^2)`. */
export interface Term {
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly factor: number;
  readonly exponent: number;
}

const exponentText = (exponent: number): string => (exponent === 1 ? '' : `^${Number(exponent.toFixed(6))}`);

/** `N*s/m`: what multiplies first, then each divisor after its own `/`. */
export function symbolOf(terms: readonly Term[]): string {
  if (terms.length === 1 && terms[0].exponent === 1) return terms[0].symbol.replace(/^\((.*)\)$/, '$1');
  const over = terms
    .filter(({ exponent }) => exponent > 0)
    .map(({ symbol, exponent }) => symbol + exponentText(exponent));
  const under = terms
    .filter(({ exponent }) => exponent < 0)
    .map(({ symbol, exponent }) => `/${symbol}${exponentText(-exponent)}`);
  return (over.join('*') || (under.length > 0 ? '1' : '')) + under.join('');
}

export function unitOf(terms: readonly Term[]): Unit {
  let dimension = dimensionless;
  let factor = 1;
  for (const term of terms) {
    dimension = combine(dimension, term.dimension, term.exponent);
    factor *= term.exponent < 0 ? 1 / powerOf(term.factor, -term.exponent) : powerOf(term.factor, term.exponent);
  }
  return { symbol: symbolOf(terms), dimension, factor };
}

/** The same symbol stands once; what cancels is gone. */
export function merge(terms: readonly Term[]): readonly Term[] {
  const merged = new Map<string, Term>();
  for (const term of terms) {
    const known = merged.get(term.symbol);
    merged.set(term.symbol, known ? { ...known, exponent: known.exponent + term.exponent } : term);
  }
  return [...merged.values()].filter(({ exponent }) => Math.abs(exponent) > 1e-9);
}

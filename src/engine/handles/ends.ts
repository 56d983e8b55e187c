import type { HandleEnd, Literal } from '../../charts/handle.ts';
import { roundedSI } from '../../units/arithmetic.ts';
import type { Numeral } from './numerals.ts';

/** Where a number counts from on the chart's axis, in s or Hz, and which way. */
export interface Counting {
  readonly origin: number;
  readonly sign: 1 | -1;
}

const plainly: Counting = { origin: 0, sign: 1 };

/** The end that a number writes. */
export function endOf(
  word: string,
  numeral: Numeral,
  counting: Counting = plainly,
  rest: Pick<HandleEnd, 'least' | 'most' | 'carries'> = {},
): HandleEnd {
  return {
    word,
    at: counting.origin + counting.sign * roundedSI(numeral.quantity),
    literal: literalOf(numeral, counting),
    ...rest,
  };
}

const literalOf = ({ cell, place, text, unit, slot }: Numeral, { origin, sign }: Counting): Literal => ({
  cell,
  from: place.from,
  to: place.to,
  text,
  unit: unit.symbol,
  factor: unit.factor,
  origin,
  sign,
  slot,
});

/** Both ends of a range; undefined if neither of them stands as a number. */
export function edges(
  parts: readonly (Numeral | undefined)[],
  range: { readonly from: number; readonly to: number },
  words: readonly [string, string],
): readonly HandleEnd[] | undefined {
  const [from, to] = parts;
  if (from === undefined && to === undefined) return undefined;
  return [
    from === undefined ? { word: words[0], at: range.from } : endOf(words[0], from),
    to === undefined ? { word: words[1], at: range.to } : endOf(words[1], to),
  ];
}

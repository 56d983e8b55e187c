import { roundedSI } from '../units/arithmetic.ts';
import { dimensionOf, isNumber, sameDimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/format.ts';
import { unit as unitNamed } from '../units/parse.ts';
import type { Dimension, Quantity } from '../units/unit.ts';
import { describeKind, describeKinds } from './describe.ts';
import type { LanguageMessage, Slot } from './facts.ts';
import type { Accept, DimensionName, ValueKind } from './form.ts';
import { tell } from './messages.ts';
import { usualUnit } from './usual.ts';
import type { Kinds } from './vocabulary.ts';
import { kindsOf, type Typed } from './work.ts';

// What a form asks of one argument: the same rules whether it stands in the text or was computed.

/** What is known of an argument: some of it before anything runs, all of it afterwards. */
export type Known = Pick<Typed, 'kind' | 'dimension' | 'constant'>;

/** What is asked of an argument: the slot it stands in, how that may be filled, and how the argument is spelled. */
export interface Asked {
  readonly where: Slot;
  readonly accepts: readonly Accept[];
  readonly found: string;
  readonly kinds: Kinds;
}

type SizeAccept = Extract<Accept, { type: 'quantity' | 'number' | 'integer' }>;

const isSize = (accept: Accept): accept is SizeAccept =>
  accept.type === 'quantity' || accept.type === 'number' || accept.type === 'integer';

/** Whether a quantity of this dimension may stand where one of these is wanted. */
export const measures = (dimension: Dimension, wanted: readonly DimensionName[]): boolean =>
  wanted.some(
    (name) =>
      name === 'any' || sameDimension(dimension, dimensionOf(name)) || (name === 'ratio' && isNumber(dimension)),
  );

const dimensionIn = (accept: SizeAccept): DimensionName => (accept.type === 'quantity' ? accept.dimension : 'ratio');

/** Why an argument can't stand in its place, by its kind, its dimension and its bounds; undefined if it can. */
export function whyUnfit(known: Known, asked: Asked): LanguageMessage | undefined {
  const { kind, dimension, constant } = known;
  const sizes = asked.accepts.filter(isSize);
  const wanted = kindsWanted(asked.accepts, sizes);
  if (kind !== undefined && !wanted.includes(kind)) {
    const { where, found, kinds } = asked;
    const words = describeKinds(wanted, kinds);
    return tell('kind.mismatch', { where, wanted: words, kind: describeKind(kind, kinds), found, instead: undefined });
  }
  if (dimension === undefined || sizes.length === 0) return undefined;
  const fitting = sizes.find((accept) => measures(dimension, [dimensionIn(accept)]));
  if (fitting !== undefined) return constant === undefined ? undefined : whyOutOfBounds(constant, fitting, asked);
  const names = sizes.map(dimensionIn);
  const { where, found } = asked;
  return tell('unit.dimension', { where, wanted: names, found, dimension, unit: usualUnit(names[0]) });
}

function kindsWanted(accepts: readonly Accept[], sizes: readonly SizeAccept[]): readonly ValueKind[] {
  const kinds = kindsOf(accepts);
  return sizes.length === 0 || kinds.includes('quantity') ? kinds : [...kinds, 'quantity'];
}

function whyOutOfBounds(given: Quantity, accept: SizeAccept, { where, found }: Asked): LanguageMessage | undefined {
  const value = roundedSI(given);
  const { unit } = given;
  const { above, most } = accept;
  const signed = accept.type !== 'quantity' || accept.signed === true;
  const least = accept.least ?? (signed || above !== undefined ? undefined : 0);
  // A plain number that would fit with a % after it.
  const percent =
    accept.type === 'quantity' &&
    accept.dimension === 'ratio' &&
    unit.symbol === '' &&
    most !== undefined &&
    value / 100 <= most;
  const shown = (bound: number): string =>
    formatQuantity(percent ? { value: bound * 100, unit: unitNamed('%') } : { value: bound / unit.factor, unit });
  if (accept.type === 'integer' && !Number.isInteger(value)) return tell('value.integer', { where, found });
  if (above !== undefined && value <= above) return tell('value.above', { where, above: shown(above), found });
  if (least !== undefined && value < least) return tell('value.least', { where, least: shown(least), found });
  if (most !== undefined && value > most) {
    const instead = percent ? `${found} %` : undefined;
    return tell('value.most', { where, most: shown(most), found, instead });
  }
  return undefined;
}

/**
 * Why two ends make no range, by their dimensions and their order; undefined if they do.
 * @param instead the range the other way round
 */
export function whyNoRange(from: Quantity, to: Quantity, asked: Asked, instead: string): LanguageMessage | undefined {
  const { where, accepts, found } = asked;
  const wanted = rangesIn(accepts);
  const fits = measures(from.unit.dimension, wanted);
  if (!fits || !sameDimension(from.unit.dimension, to.unit.dimension)) {
    // Of two ends the one that does not fit is the one to speak of.
    const { dimension } = (fits ? to : from).unit;
    return tell('unit.dimension', { where, wanted, found, dimension, unit: usualUnit(wanted[0]) });
  }
  const [a, b] = [roundedSI(from), roundedSI(to)];
  if (a === b) return tell('range.empty', { found });
  return a > b ? tell('range.reversed', { found, instead }) : undefined;
}

/** The dimensions of the ranges that a place takes. */
const rangesIn = (accepts: readonly Accept[]): readonly DimensionName[] =>
  accepts.flatMap((accept) => (accept.type === 'range' ? [accept.dimension] : []));

import { decibelsOf, levelIn, type LevelReference } from '../values/decibels.ts';
import type { Unit } from '../units/unit.ts';
import { fromZero, levelAxis, logLevelAxis, type Domain } from './axes.ts';
import { axisTitle, levelAxisWords } from './words/names.ts';
import { fixed, printedUnit, significant } from '../values/number.ts';
import { powerOf } from '../numbers/power.ts';

/** How the levels of a picture are told: in their unit, or in dB over a reference. */
export interface LevelScale {
  /** As it is printed. */
  readonly unit: string;
  /** Where levels are told in dB: 1 in the unit is so much of the reference. */
  readonly factor?: number;
  /** `level on a log axis`, `level in dB`. */
  readonly words: string;
  /** A figure as it is drawn on a linear axis. */
  readonly of: (figure: number) => number;
  /** A figure without its unit. */
  readonly write: (figure: number, digits?: number) => string;
  /** A linear axis of the field that holds figures drawn. @param more room above the largest of sizes, what else the axis is */
  readonly linear: (
    field: string,
    quantity: string,
    figures: readonly number[],
    more?: { readonly room?: number; readonly axis?: object },
  ) => object;
  /** A logarithmic axis of the field `v`, over a domain of the figures themselves. */
  readonly logarithmic: (quantity: string, domain: Domain) => object;
}

/** The scale of figures in a unit; in dB where the reference measures the same. */
export function levelScaleOf(unit: Unit, reference: LevelReference | undefined): LevelScale {
  const scale = reference && decibelsOf(unit, reference);
  if (scale === undefined)
    return {
      unit: printedUnit(unit.symbol),
      words: levelAxisWords.unit,
      of: (figure) => figure,
      write: significant,
      linear: (field, quantity, figures, { room, axis } = {}) =>
        levelAxis(field, axisTitle(quantity, unit), fromZero(figures, room), axis),
      logarithmic: (quantity, domain) => logLevelAxis(axisTitle(quantity, unit), domain),
    };
  const { symbol, times, factor } = scale;
  const of = (figure: number): number => levelIn(scale, figure);
  return {
    unit: printedUnit(symbol),
    factor,
    words: levelAxisWords.decibels,
    of,
    write: (figure) => fixed(of(figure), 1),
    linear: (field, quantity, figures, { axis } = {}) =>
      levelAxis(field, axisTitle(quantity, symbol), around(figures.map(of)), axis),
    logarithmic(quantity, domain) {
      const values = wholeLevels(of(domain.from), of(domain.to)).map((db) => powerOf(10, db / times) / factor);
      const axis = logLevelAxis(axisTitle(quantity, symbol), domain) as { readonly axis: object };
      const labelExpr = `format(${times} * log(datum.value * ${factor}) / LN10, '.0f')`;
      return { ...axis, axis: { ...axis.axis, values, labelExpr } };
    },
  };
}

/** A domain with room below the lowest level and above the highest; of dB no zero has a meaning. */
function around(levels: readonly number[]): object {
  const known = levels.filter(Number.isFinite);
  if (known.length === 0) return { domain: [0, 1] };
  const [low, high] = [Math.min(...known), Math.max(...known)];
  const room = Math.max(1, 0.15 * (high - low));
  return { domain: [Math.floor(low - 2 * room), Math.ceil(high + room)], nice: false, zero: false };
}

/** Whole steps of dB between two levels, some seven of them. */
function wholeLevels(from: number, to: number): number[] {
  const step = [1, 2, 5, 10, 20, 50, 100].find((one) => (to - from) / one <= 7) ?? 200;
  const first = Math.ceil(from / step);
  return Array.from({ length: Math.max(0, Math.floor(to / step) - first + 1) }, (_, k) => (first + k) * step);
}

import { inSI, quantity } from '../units/arithmetic.ts';
import { combine, dimensionless, dimensionOf, raise, sameDimension } from '../units/dimension.ts';
import { formatNumber } from '../units/format.ts';
import type { Quantity, Unit } from '../units/unit.ts';
import { log10Of } from '../numbers/logarithm.ts';

/** What levels in dB are over: one quantity, or for each thing measured the one that a standard prefers. */
export interface LevelReference {
  readonly quantities: readonly Quantity[];
}

/**
 * Preferred reference values for vibratory levels, ISO 1683:2015: acceleration 1 µm/s², velocity 1 nm/s, displacement
 * 1 pm, force 1 µN.
 */
export const iso1683: LevelReference = {
  quantities: [quantity(1e-6, 'm/s^2'), quantity(1e-9, 'm/s'), quantity(1e-12, 'm'), quantity(1e-6, 'N')],
};

/** How figures of one unit are told as levels: so many times log10 of the figure times the factor. */
export interface DecibelScale {
  /** `dB re 1e-6 m/s^2`; of a density `dB re (1e-6 m/s^2)^2/Hz`. */
  readonly symbol: string;
  readonly times: 10 | 20;
  readonly factor: number;
}

/** What is left of a density's unit once the square is taken out: over Hz, orders or cycles per metre. */
const densities = [
  { symbol: '/Hz', dimension: dimensionOf('time') },
  { symbol: '', dimension: dimensionless },
  { symbol: '*m', dimension: dimensionOf('length') },
] as const;

/**
 * Levels of figures in a unit over a reference: 20 log10 of an amplitude over it, 10 log10 of a density over its square.
 * @returns undefined where the unit measures something else
 */
export function decibelsOf(unit: Unit, { quantities }: LevelReference): DecibelScale | undefined {
  for (const reference of quantities) {
    const { dimension, symbol } = reference.unit;
    const size = inSI(reference);
    const words = `${formatNumber(reference.value, 6)} ${symbol}`.trimEnd();
    if (sameDimension(unit.dimension, dimension))
      return { symbol: `dB re ${words}`, times: 20, factor: unit.factor / size };
    const per = combine(unit.dimension, raise(dimension, 2), -1);
    const density = densities.find((one) => sameDimension(one.dimension, per));
    if (density !== undefined)
      return { symbol: `dB re (${words})^2${density.symbol}`, times: 10, factor: unit.factor / size ** 2 };
  }
  return undefined;
}

/** The level of a figure in dB; NaN of zero and less, which have none. */
export const levelIn = ({ times, factor }: DecibelScale, figure: number): number =>
  figure > 0 ? times * log10Of(figure * factor) : NaN;

import { naturalFrequency, transmissibility } from '../signal/mechanics.ts';
import { add, convert, divide, inSI, power, quantity } from '../units/arithmetic.ts';
import { unit } from '../units/parse.ts';
import type { Quantity } from '../units/unit.ts';

/**
 * Stiffness of springs one after the other, 1 / (1/k1 + 1/k2 + …).
 *
 * @param stiffnesses of one dimension, each above 0, at least one
 * @returns a stiffness in the unit of the first
 */
export function inSeries(stiffnesses: readonly Quantity[]): Quantity {
  const inverse = stiffnesses.map((one) => power(one, -1)).reduce((sum, one) => add(sum, one) ?? sum);
  const total = power(inverse, -1);
  return convert(total, stiffnesses[0].unit) ?? total;
}

/**
 * Stiffness of springs side by side, k1 + k2 + ….
 *
 * @param stiffnesses of one dimension, at least one
 * @returns a stiffness in the unit of the first
 */
export const inParallel = (stiffnesses: readonly Quantity[]): Quantity =>
  stiffnesses.reduce((sum, one) => add(sum, one) ?? sum);

/**
 * Natural frequency of an undamped mass on a spring.
 *
 * @param stiffness above 0
 * @param mass above 0
 * @returns a frequency in Hz
 */
export const massOnSpring = (stiffness: Quantity, mass: Quantity): Quantity =>
  quantity(naturalFrequency(inSI(stiffness), inSI(mass)), 'Hz');

/**
 * Turns a second of a wheel that rolls without slip, speed / circumference.
 *
 * @param speed over ground
 * @param circumference by which it rolls on, above 0
 * @returns a frequency in Hz
 */
export function rotationRate(speed: Quantity, circumference: Quantity): Quantity {
  const rate = divide(speed, circumference);
  return convert(rate, unit('Hz')) ?? rate;
}

/**
 * Transmissibility of a mass on a damped spring over a moving base.
 *
 * @param frequency of the base's motion
 * @param natural frequency of the mass on its spring, above 0
 * @param damping as a share of critical damping, at least 0
 * @returns a ratio of amplitudes
 */
export const overMovingBase = (frequency: Quantity, natural: Quantity, damping: Quantity): Quantity =>
  quantity(transmissibility(inSI(frequency) / inSI(natural), inSI(damping)), '');

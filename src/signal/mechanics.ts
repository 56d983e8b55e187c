/**
 * Closed forms of the single-degree-of-freedom oscillator (Den Hartog, Mechanical Vibrations, 2; Harris' Shock and
 * Vibration Handbook, 2), in SI units.
 */

/** Transmissibility |T| of a base-driven oscillator at r = f / fn with damping ratio zeta. */
export function transmissibility(r: number, zeta: number): number {
  const damped = (2 * zeta * r) ** 2;
  return Math.sqrt((1 + damped) / ((1 - r * r) ** 2 + damped));
}

/** Damping ratio from the heights of two peaks of a free decay `cycles` apart (logarithmic decrement). */
export function dampingOfDecay(first: number, later: number, cycles: number): number {
  const decrement = Math.log(first / later) / cycles;
  return decrement / Math.hypot(2 * Math.PI, decrement);
}

/** Damping ratio from the half-power points of a resonance, (f2 - f1) / (2 fn); good below 0.1. */
export function dampingOfWidth(low: number, natural: number, high: number): number {
  return (high - low) / (2 * natural);
}

/**
 * Response r.m.s. of an oscillator to a flat density, sqrt(pi/2 fn Q S) (Miles 1954, J. Aeronaut. Sci. 21).
 *
 * @param density base acceleration in unit^2/Hz about fn
 */
export function milesRms(natural: number, q: number, density: number): number {
  return Math.sqrt((Math.PI / 2) * natural * q * density);
}

/** Factor by which a sensor on a bracket with resonance `bracket` reads too much at `frequency`, 1 / (1 - (f/fb)^2). */
export function bracketFactor(frequency: number, bracket: number): number {
  return 1 / (1 - (frequency / bracket) ** 2);
}

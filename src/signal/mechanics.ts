/**
 * Natural frequency of an undamped mass on a spring, sqrt(k / m) / (2 pi) (Den Hartog, Mechanical Vibrations, chapter 2).
 *
 * @param stiffness k in N/m, above 0
 * @param mass m in kg, above 0
 * @returns Hz
 */
export function naturalFrequency(stiffness: number, mass: number): number {
  return Math.sqrt(stiffness / mass) / (2 * Math.PI);
}

/**
 * Transmissibility of a mass on a damped spring over a moving base: the amplitude of the mass's absolute motion over
 * that of the base, sqrt((1 + (2 zeta r)^2) / ((1 - r^2)^2 + (2 zeta r)^2)) (Den Hartog, Mechanical Vibrations, 2.12).
 *
 * @param r frequency over natural frequency, at least 0
 * @param zeta damping as a share of critical damping, at least 0
 * @returns a ratio of amplitudes; Infinity at resonance without damping
 */
export function transmissibility(r: number, zeta: number): number {
  const damped = (2 * zeta * r) ** 2;
  return Math.sqrt((1 + damped) / ((1 - r * r) ** 2 + damped));
}

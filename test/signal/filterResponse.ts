import type { Section } from '../../src/signal/butterworth.ts';

/** |H| of the sections, passed once, at a frequency in Hz. */
export function filterResponse(sections: readonly Section[], frequency: number, rate: number): number {
  const angle = (2 * Math.PI * frequency) / rate;
  const size = (c0: number, c1: number, c2: number): number =>
    Math.hypot(c0 + c1 * Math.cos(angle) + c2 * Math.cos(2 * angle), c1 * Math.sin(angle) + c2 * Math.sin(2 * angle));
  return sections.reduce((product, { b0, b1, b2, a1, a2 }) => (product * size(b0, b1, b2)) / size(1, a1, a2), 1);
}

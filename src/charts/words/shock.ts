import { listed } from '../../result/words.ts';
import { hertz, plain, significant } from '../../values/number.ts';
import type { ShockEntry } from '../../values/shock.ts';
import { distinct } from './names.ts';

// What is said of shock response spectra.

/** How both curves of a run are named: the largest at any time, and once the run has ended. */
export const responseNames = {
  maximax: 'at any time (maximax)',
  residual: 'after the end of the run (residual)',
} as const;

export const shockTitle = (sets: readonly string[]): string => `Shock response spectrum: ${listed(distinct(sets))}`;

/** @param dampings fractions of critical damping */
export const shockSubtitle = (dampings: readonly number[]): string =>
  `Largest absolute acceleration of oscillators with ${listed(distinct(dampings.map((one) => `${plain(100 * one)} %`)))} of critical damping. Dashed: after the end of the run.`;

/** Levels of one oscillator, without their unit. */
export const bothResponses = (maximax: string, residual: string): string => `${maximax}, after the end ${residual}`;

export const shockAxis = 'Natural frequency (Hz)';

/** The largest of each curve, and where. @param write a level without its unit */
export function shockSentence(
  label: string,
  { maximax, residual, frequencies }: ShockEntry,
  { unit, write }: { readonly unit: string; readonly write: (figure: number, digits?: number) => string },
): string {
  const largest = (levels: Float64Array): string => {
    const top = levels.reduce((best, level, k) => (level > levels[best] ? k : best), 0);
    return `${write(levels[top], 3)} ${unit} at ${hertz(frequencies[top])}`;
  };
  return `${label}: largest ${largest(maximax)}; after the end ${largest(residual)}.`;
}

export const shockCaption = (called: string | undefined, damping: number): string =>
  `Shock response${called === undefined ? '' : ` of ${called}`}, damping ${significant(100 * damping, 3)} %`;

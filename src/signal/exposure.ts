/**
 * Figures of human exposure that stand beside weighted levels as context. They hold for readings at the seat surface
 * or the hand; they are no verdict on health.
 */

/** A range of ISO 2631-1:1997, C.2.3 (public transport). The ranges overlap as printed. */
export interface ComfortRange {
  readonly label: string;
  /** Of the total value a_v, in m/s^2. */
  readonly from: number;
  readonly to: number;
}

export const comfortRanges: readonly ComfortRange[] = [
  { label: 'not uncomfortable', from: 0, to: 0.315 },
  { label: 'a little uncomfortable', from: 0.315, to: 0.63 },
  { label: 'fairly uncomfortable', from: 0.5, to: 1 },
  { label: 'uncomfortable', from: 0.8, to: 1.6 },
  { label: 'very uncomfortable', from: 1.25, to: 2.5 },
  { label: 'extremely uncomfortable', from: 2, to: Infinity },
];

/** Every range that holds a total value in m/s^2: two where they overlap. Only the outer ends, 0.315 and 2, are left out of their range. */
export function comfortAt(total: number): readonly ComfortRange[] {
  return comfortRanges.filter(({ from, to }) =>
    from === 0 ? total < to : to === Infinity ? total > from : total >= from && total <= to,
  );
}

/** Action and limit values of Directive 2002/44/EC, article 3; vibration total values, for an eight-hour day. */
export const directiveValues = {
  handArm: { action: 2.5, limit: 5 },
  wholeBody: { action: 0.5, limit: 1.15 },
  wholeBodyDose: { action: 9.1, limit: 21 },
} as const;

/** Total of three weighted axes with their multiplying factors, sqrt(sum (k a_w)^2) (ISO 2631-1:1997, 6.5). */
export function vibrationTotal(axes: readonly { readonly rms: number; readonly factor: number }[]): number {
  return Math.sqrt(axes.reduce((sum, { rms, factor }) => sum + (factor * rms) ** 2, 0));
}

/** Daily exposure A(8) = a sqrt(T / 8 h); `hours` of exposure a day. */
export function dailyExposure(acceleration: number, hours: number): number {
  return acceleration * Math.sqrt(hours / 8);
}

/** Estimated dose 1.4 a_w T^(1/4) in m/s^1.75, T in s (ISO 2631-1:1997, note to 6.3.2). */
export function estimatedDose(rms: number, seconds: number): number {
  return 1.4 * rms * seconds ** 0.25;
}

/** Which of the signs of ISO 2631-1:1997, 6.2.1 and 6.3.3 call for MTVV or VDV beside the weighted r.m.s. */
export interface AdditionalMethods {
  /** Crest factor of the weighted signal, called for above 9. */
  readonly crest: { readonly value: number; readonly calledFor: boolean };
  /** MTVV / a_w, above 1.5. */
  readonly transient: { readonly value: number; readonly calledFor: boolean };
  /** VDV / (a_w T^(1/4)), above 1.75. */
  readonly dose: { readonly value: number; readonly calledFor: boolean };
}

/**
 * The ratios of a weighted signal that call for the additional methods.
 *
 * @param of weighted r.m.s. and peak, greatest running r.m.s. over 1 s, dose, all of one unit of acceleration; length in s
 */
export function additionalMethods(of: {
  readonly rms: number;
  readonly peak: number;
  readonly greatestRunning: number;
  readonly dose: number;
  readonly seconds: number;
}): AdditionalMethods {
  const judged = (value: number, threshold: number): { value: number; calledFor: boolean } => ({
    value,
    calledFor: value > threshold,
  });
  return {
    crest: judged(of.peak / of.rms, 9),
    transient: judged(of.greatestRunning / of.rms, 1.5),
    dose: judged(of.dose / (of.rms * of.seconds ** 0.25), 1.75),
  };
}

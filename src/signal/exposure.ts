/**
 * Figures of human exposure that stand beside weighted levels as context. They hold for readings at the seat surface
 * or the hand; they are no verdict on health.
 */

/** What ISO 2631-1:1997, C.2.3 calls a total value. */
export type Comfort = 'not' | 'a-little' | 'fairly' | 'uncomfortable' | 'very' | 'extremely';

/** Ranges of the total value in m/s^2; they overlap as printed. */
const comfortRanges: readonly { readonly comfort: Comfort; readonly from: number; readonly to: number }[] = [
  { comfort: 'not', from: 0, to: 0.315 },
  { comfort: 'a-little', from: 0.315, to: 0.63 },
  { comfort: 'fairly', from: 0.5, to: 1 },
  { comfort: 'uncomfortable', from: 0.8, to: 1.6 },
  { comfort: 'very', from: 1.25, to: 2.5 },
  { comfort: 'extremely', from: 2, to: Infinity },
];

/**
 * How uncomfortable passengers of public transport may find a vibration (ISO 2631-1:1997, C.2.3).
 *
 * @param total total value a_v of the weighted axes in m/s^2, r.m.s.
 * @returns every range that holds it: two where they overlap. The outer ends, 0.315 and 2, lie outside their range
 */
export function comfortAt(total: number): readonly Comfort[] {
  return comfortRanges
    .filter(({ from, to }) => (from === 0 ? total < to : to === Infinity ? total > from : total >= from && total <= to))
    .map(({ comfort }) => comfort);
}

/** Action and limit values of Directive 2002/44/EC, article 3; vibration total values, for an eight-hour day. */
export const directiveValues = {
  handArm: { action: 2.5, limit: 5 },
  wholeBody: { action: 0.5, limit: 1.15 },
  wholeBodyDose: { action: 9.1, limit: 21 },
} as const;

/**
 * Total of weighted axes with their multiplying factors, sqrt(sum (k a_w)^2) (ISO 2631-1:1997, 6.5).
 *
 * @param axes weighted r.m.s. and factor of each, all in one unit
 * @returns in the axes' unit, r.m.s.
 */
export function vibrationTotal(axes: readonly { readonly rms: number; readonly factor: number }[]): number {
  return Math.sqrt(axes.reduce((sum, { rms, factor }) => sum + (factor * rms) ** 2, 0));
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
 * The ratios of a weighted signal that call for the additional methods (ISO 2631-1:1997, 6.2.1 and 6.3.3).
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
  const against = (value: number, threshold: number): { value: number; calledFor: boolean } => ({
    value,
    calledFor: value > threshold,
  });
  return {
    crest: against(of.peak / of.rms, 9),
    transient: against(of.greatestRunning / of.rms, 1.5),
    dose: against(of.dose / (of.rms * Math.sqrt(Math.sqrt(of.seconds))), 1.75),
  };
}

import type { Refused } from '../../result/result.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import { refuse } from '../messages/spectra.ts';

/**
 * Why a spectrum has no frequencies to look for, where its axis was divided by a speed; otherwise undefined.
 * @param at the operand or option that is to blame
 */
export const whyNoFrequencies = ({ axis }: SpectrumValue, at: string): Refused | undefined =>
  axis === undefined ? undefined : refuse('spectrum.orders', { axis: axis.name }, at);

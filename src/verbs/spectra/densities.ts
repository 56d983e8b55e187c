export { densityOf } from '../../analysis/spectra/density.ts';
import { spectrumOf } from '../../analysis/spectra/spectrum.ts';
import { answered } from '../../result/result.ts';
import { valueOf, windowOf, type Verb } from '../verb.ts';
import { spectrum } from './spectrum.ts';

const none = new Float64Array(0);

/** The densities of a spectrum without what is made of them for a reader: no word of the language, but a step of what compares runs. */
export const densities: Verb = {
  ...spectrum,
  evaluate(given, { watch }) {
    const found = spectrumOf(valueOf(given, 'runs', 'runs'), { window: windowOf(given) }, watch);
    if (!found.ok) return found;
    const entries = found.value.entries.map((entry) => ({ ...entry, level: none, low: none, high: none }));
    return answered({ ...found.value, entries, means: [] }, found.warnings);
  },
};

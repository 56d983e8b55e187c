import type { DimensionName } from '../form.ts';
import type { Offer } from './offer.ts';

/** Frequency ranges that standards name, offered where a band is wanted. */
const frequency: readonly (readonly [range: string, what: string])[] = [
  ['0.5..80 Hz', 'whole-body vibration, health and comfort (ISO 2631-1:1997, clause 1)'],
  ['0.1..0.5 Hz', 'motion sickness (ISO 2631-1:1997, clause 1)'],
  ['8..1000 Hz', 'hand-transmitted vibration, octave bands (ISO 5349-1:2001, clause 4)'],
];

export const presets = (dimension: DimensionName): readonly Offer[] =>
  dimension === 'frequency' ? frequency.map(([label, detail]) => ({ label, kind: 'range', detail, rank: 3 })) : [];

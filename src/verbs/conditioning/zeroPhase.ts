import type { OptionForm } from '../../language/form.ts';
import { siOf, type Arguments } from '../verb.ts';

// What the filters share.

export const zeroPhaseHelp =
  'A Butterworth filter as second-order sections, run forwards and then backwards over each unbroken stretch, so that nothing shifts in time. Twice through doubles the effective order and makes a corner −6 dB (half the amplitude), not −3 dB: `order 4` falls like order 8. Each end is continued by its own half turn, as is usual for this filter. Keep corners at least an octave outside of the band that is read (Butterworth 1930; Gustafsson 1996, IEEE Trans. Signal Processing 44).';

export const orderOption: OptionForm = {
  keyword: 'order',
  doc: 'Order of the filter, passed twice.',
  accepts: [{ type: 'integer', least: 1, most: 12 }],
  default: '4',
};

/** The order of one pass. */
export const orderIn = (given: Arguments): number => siOf(given, 'order') ?? 4;

import { bandLevels } from '../../analysis/spectra/bands.ts';
import { octaveFractions, type OctaveFraction } from '../../analysis/spectra/octaves.ts';
import { operand, rangesIn, valueOf, wordOf, type Verb } from '../verb.ts';

export const band: Verb = {
  takesLong: true,
  needsNoSamples: true,
  form: {
    verb: 'band',
    summary: 'Gives the r.m.s. in each frequency band of each run.',
    help: 'The density is integrated exactly over [low, high] as bins of one spacing’s width: a bin partly covered counts by the part covered, so neighbouring bands add up (in mean square) to the band that spans them. A band that reaches past half the rate is an error. With `third-octave` and its kin, the whole bands of IEC 61260-1:2014 within the range: base ten, edges halfway on the logarithmic scale, called by their nominal frequencies; an end of the range that is the nominal frequency of a band takes that band in whole, so that `third-octave 25..80 Hz` goes from the band of 25 Hz to that of 80 Hz and `25..85 Hz` no farther; a band of fewer than four bins is left empty. ISO 2631-1:1997, 5.5 asks for 108 s of recording to take a third-octave from 1 Hz up, 227 s from 0.5 Hz. State bands before looking at the spectrum.',
    operands: [
      { name: 'spectrum', doc: 'The spectrum.', accepts: [{ type: 'value', kinds: ['spectrum'] }] },
      {
        name: 'fraction',
        doc: 'Part each range into bands of an octave or a part of one.',
        accepts: [{ type: 'word', words: octaveFractions }],
        optional: true,
      },
      {
        name: 'bands',
        doc: 'The bands, as in `10..50 Hz, 50..100 Hz`.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
        many: true,
      },
    ],
    options: [],
    gives: 'bands',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nband (spectrum foam) 4..10 Hz, 10..50 Hz',
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nband (spectrum foam using window hann 8 s) third-octave 2.5..125 Hz',
    ],
  },
  evaluate(given) {
    const fraction = wordOf(operand(given, 'fraction')) as OctaveFraction | undefined;
    return bandLevels(valueOf(given, 'spectrum', 'spectrum'), fraction, rangesIn(given.operands.bands));
  },
};

import { peaksOf } from '../../analysis/spectra/peaks.ts';
import { rangesIn, siOf, valueOf, type Verb } from '../verb.ts';

export const peaks: Verb = {
  takesLong: true,
  needsNoSamples: true,
  form: {
    verb: 'peaks',
    summary: 'Finds the lines and resonances that stand out of a spectrum.',
    help: 'A peak counts only where its lower confidence limit lies above the upper limit of the dips on both its sides, with limits that hold for all bins of the range at once (Bonferroni), so that noise alone is not listed. The frequency lies between the bins (a parabola through the logarithms). A pure line between two bins reads low by the window’s response, up to 15 % with hann: its height and frequency are worked out from the two highest bins (Grandke 1983, IEEE Trans. Instrum. Meas. 32(2)), and `correction` says by how much the height was raised. `shape` is `line` (or a resonance too narrow for the window to show: one resolution does not tell them apart, and the result says below which width), `resonance`, `unresolved` (fewer than five bins within the half-power width: the height reads low) or `blurred` (neighbours reach into it: the height is that of the bin). The width is that of half the power, with the window’s own width taken out in squares; where it is no wider than a pure line would seem, there is none. Damping ratio = width/(2f), where the width spans at least five bins and the ratio is below 0.1 (Bendat and Piersol, Engineering Applications of Correlation and Spectral Analysis, 4). With several runs the peaks of their mean come last, as run `mean`.',
    operands: [
      { name: 'spectrum', doc: 'The spectrum.', accepts: [{ type: 'value', kinds: ['spectrum'] }] },
      {
        name: 'range',
        doc: 'Where to look, as in `5..100 Hz`.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
        optional: true,
      },
    ],
    options: [
      {
        keyword: 'count',
        doc: 'How many at most of each run and channel, the highest ones.',
        accepts: [{ type: 'integer', least: 1, most: 1000 }],
        default: '5',
      },
    ],
    gives: 'peaks',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\npeaks (spectrum foam using window hann 4 s) 5..100 Hz count 5',
    ],
  },
  evaluate(given) {
    const range = rangesIn(given.operands.range ?? []).at(0);
    return peaksOf(valueOf(given, 'spectrum', 'spectrum'), range, siOf(given, 'count'));
  },
};

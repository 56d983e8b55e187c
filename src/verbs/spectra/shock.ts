import { shockResponses } from '../../analysis/spectra/shock.ts';
import { option, rangeIn, siOf, valueOf, type Verb } from '../verb.ts';

const usualDamping = 0.05;

export const shock: Verb = {
  form: {
    verb: 'shock',
    summary: 'Gives the shock response spectrum: how strongly oscillators of each natural frequency answer a shock.',
    help: 'For each natural frequency, twelve an octave, the largest absolute acceleration of an oscillator with this damping on a base that moves as recorded: at any time (maximax), towards + and towards −, and in the free vibration after the end of the run (residual). By the ramp-invariant filters of ISO 18431-4:2007 (Smallwood 1981). Trim to the shock with some rest before it; the median of the trimmed run stands for rest, and each unbroken stretch begins there. What rings down before the run ends is not in the residual: for that of the shock itself, end the trim where the shock ends. It is read up to a tenth of the rate, where it is up to 4 % low: `resample` to a higher rate first goes further, if nothing above half the old rate was in the shock. A half sine of 10 ms is largest, 1.77 times its peak without damping, near 80 Hz. `damping 5 %` is an amplification of 10.',
    operands: [
      { name: 'runs', doc: 'The runs, each trimmed to a shock.', accepts: [{ type: 'value', kinds: ['runs'] }] },
    ],
    options: [
      {
        keyword: 'damping',
        doc: 'Part of critical damping.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0, most: 0.99 }],
        default: '5 %',
      },
      {
        keyword: 'over',
        doc: 'The range of natural frequencies.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
        default: '1 Hz to a tenth of the rate',
      },
    ],
    gives: 'shock',
    examples: [
      'bump = load "raw/brick-foam-1.csv.gz" | channel z | trim 47..50 s\nshock bump damping 5 % over 2..30 Hz',
    ],
  },
  evaluate(given, { watch }) {
    const damping = siOf(given, 'damping') ?? usualDamping;
    return shockResponses(valueOf(given, 'runs', 'runs'), damping, rangeIn(option(given, 'over')), watch);
  },
};

import { comparedSides } from '../../analysis/evidence/comparedSides.ts';
import { metricNames } from '../../analysis/evidence/metrics.ts';
import { sideOf, sidesOf } from '../../analysis/evidence/sides.ts';
import { octaveFractions } from '../../analysis/spectra/octaves.ts';
import { windowNames } from '../../analysis/spectra/window.ts';
import { hasFlag } from '../arguments.ts';
import { windowOf } from '../spectra/using.ts';
import type { Verb } from '../verb.ts';
import { comparableIn, compareRequest } from './compareRequest.ts';

export const compare: Verb = {
  form: {
    verb: 'compare',
    summary: 'Says how much B differs from A in each band, and how sure that is.',
    help: 'The run is the unit of evidence: each run gives one level a band, and their logarithms are compared; the change is B/A − 1 of the geometric means, in percent of amplitude and in dB (20 log10). The method follows from how the test was laid out, as its run sheet tells, and never from the data: within pairs that the sheet names (column `pair`); with differences between days taken out (column `day` or `session`, or dates); with a steady drift over the known order taken out, from 6 runs a side a curved one, too; by Welch’s t (Welch 1947) where the order is not known. Of all runs of A before all of B no verdict is given. Each row makes one statement: its interval, p, outcome and every claim rest on the same limits. The band named `primary` stands by itself; the others hold together (Bonferroni). A row is lower, higher, the same within the stated `margin` when the whole interval lies within it, or not shown. `metric` compares another level than the r.m.s. of a band: `vdv`, the 99 and 99.9 % levels, or the r.m.s. weighted by `wk` and its kin. With fewer than 3 runs a side the figure stands without interval. A change that is not shown is not the same as no change: read the interval, and what it rules out. Name bands before looking at the spectra, in a `plan`.',
    operands: [
      {
        name: 'a',
        doc: 'The baseline: runs, their spectrum, or their response.',
        accepts: [{ type: 'value', kinds: ['runs', 'spectrum', 'transfer'] }],
      },
      {
        name: 'b',
        doc: 'What is held against it.',
        accepts: [{ type: 'value', kinds: ['runs', 'spectrum', 'transfer'] }],
        keyword: 'with',
      },
    ],
    options: [
      {
        keyword: 'over',
        doc: 'The bands, or the bands of an octave’s part over a range.',
        accepts: [
          { type: 'range', dimension: 'frequency' },
          { type: 'word', words: octaveFractions },
        ],
        many: true,
        default: '1 Hz to 0.4 × the rate',
      },
      {
        keyword: 'primary',
        doc: 'The one band that the question is about: it stands by itself, not together with the others.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
      },
      {
        keyword: 'metric',
        doc: 'The level that is compared.',
        accepts: [{ type: 'word', words: metricNames }],
        default: 'rms',
      },
      {
        keyword: 'using',
        doc: 'The window of the spectra, when runs are given.',
        accepts: [
          { type: 'value', kinds: ['window'] },
          { type: 'word', words: windowNames },
          { type: 'step', verb: 'window' },
        ],
        default: 'window hann 2 s overlap 50 %',
      },
      {
        keyword: 'confidence',
        doc: 'Of the intervals.',
        accepts: [{ type: 'quantity', dimension: 'ratio', above: 0.5, most: 0.9999 }],
        default: '95 %',
      },
      {
        keyword: 'margin',
        doc: 'Changes smaller than this, either way, count as none; state it before looking.',
        accepts: [{ type: 'quantity', dimension: 'ratio', above: 0, most: 1 }],
      },
      { keyword: 'paired', doc: 'Compare within pairs of runs, neighbours unless the sheet names them.', accepts: [] },
      { keyword: 'trend', doc: 'Take a steady drift out, and nothing else, whatever the layout.', accepts: [] },
      {
        keyword: 'above',
        doc: 'The logger at rest, above whose noise every band should stand clear.',
        accepts: [{ type: 'value', kinds: ['runs', 'spectrum'] }],
      },
      {
        keyword: 'plan',
        doc: 'The plan to follow: what it settles is taken from it, and what deviates is said.',
        accepts: [{ type: 'value', kinds: ['plan'] }],
      },
      {
        keyword: 'including',
        doc: 'Take in the runs that the run sheet excludes, too.',
        accepts: [{ type: 'word', words: ['excluded'] }],
      },
    ],
    gives: 'comparison',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\ngel = load "raw/brick-gel-*.csv.gz" | channel z | trim 10..70 s\ncompare foam with gel primary 10..50 Hz over 4..10 Hz, 50..100 Hz',
      'foam = load sheet "raw/runs.csv" where condition foam, surface brick | channel z | trim 12..72 s\ngel = load sheet "raw/runs.csv" where condition gel, surface brick | channel z | trim 12..72 s\ncompare foam with gel metric vdv trend',
    ],
  },
  evaluate(given, { watch }) {
    const includesExcluded = hasFlag(given, 'including');
    const window = windowOf(given);
    const [a, b] = (['a', 'b'] as const).map((at) => {
      const { value, name } = comparableIn(given, at);
      return sideOf(value, { name, window, includesExcluded, at });
    });
    if (!a.ok) return a;
    if (!b.ok) return b;
    const sides = sidesOf(a.value, b.value);
    if (!sides.ok) return sides;
    const request = compareRequest(given);
    if (!request.ok) return request;
    return comparedSides(sides.value, request.value, watch);
  },
};

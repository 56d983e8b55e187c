import { decibelsOption, hasLevels, levelReferenceIn, noLevels, referenceOption } from '../show/levelScale.ts';
import { comparedSides } from '../../analysis/evidence/comparedSides.ts';
import { isWeighting } from '../../analysis/evidence/metrics.ts';
import { metricOf } from '../../analysis/evidence/request.ts';
import { sideOf, sidesOf, type Side, type SideOptions, type Sides } from '../../analysis/evidence/sides.ts';
import { withPlanAge } from '../../analysis/planning/planAge.ts';
import { octaveFractions } from '../../analysis/spectra/octaves.ts';
import { windowNames } from '../../analysis/spectra/window.ts';
import type { Result } from '../../result/result.ts';
import { hasFlag, textsIn, type Arguments, type Verb, confidenceAccepted, marginAccepted, windowOf } from '../verb.ts';
import { directionWords } from '../../analysis/evidence/claims.ts';
import { byRuns } from './byRuns.ts';
import { figuresIn } from './ownSteps.ts';
import {
  adjustOption,
  comparablesIn,
  compareRequest,
  metricOption,
  referenceIn,
  type NamedComparable,
} from './compareRequest.ts';

export const compare: Verb = {
  form: {
    verb: 'compare',
    summary: 'Says how much conditions differ from a baseline in each band, and how sure that is.',
    help: 'The run is the unit of evidence: each run gives one level a band, and their logarithms are compared; the change is B/A − 1 of the geometric means, in percent of amplitude and in dB (20 log10). The method follows from how the test was laid out, as its run sheet tells, and never from the data: within pairs that the sheet names (column `pair`); with differences between days taken out (column `day` or `session`, or dates); with a steady drift over the known order taken out, from 6 runs a side a curved one, too; by Welch’s t (Welch 1947) where the order is not known. Where the sheet’s column `refit` tells which time a part was put on, with several runs on each, the means of the refits are compared, since runs on one fitting say nothing of the next (runs nested in refits: Montgomery, Design and Analysis of Experiments, 14.1); it takes 2 refits a side, and from 3 on a drift is taken out, too. A part that was fitted once is told of: the interval then speaks of that fitting alone. Of all runs of A before all of B no verdict is given, nor where no day has runs of both and runs share days. Each row makes one statement: its interval, p, outcome and every claim rest on the same limits. The band named `primary` stands by itself; the others hold together (Bonferroni). A row is lower, higher, the same within the stated `margin` when the whole interval lies within it, or not shown. `metric` compares another level than the r.m.s. of a band: `vdv`, the 99 and 99.9 % levels, or the r.m.s. weighted by `wk` and its kin; `metric line 1 x speed` that of a line which goes with the speed, in the main lobe of the window about its frequency in each run, or 2 % to either side where that is wider. With fewer than 3 runs a side the figure stands without interval. A change that is not shown is not the same as no change: read the interval, and what it rules out. Name bands before looking at the spectra, in a `plan`.\n\nSeveral conditions (`compare rigid with rubber, cork`) are each held against the baseline, or every two with `all-pairs`, in one family over conditions, bands and axes (`axes x, y, z`); their runs tell the drift together, each with its own scatter. `within surface` gives the change for each word of that column of the run sheet, and the change over all of them with equal weights, which needs 2 runs of each in every stratum; what holds within single strata is a family of its own. Whether the change differs between strata is told by the F of interaction in an analysis of variance of condition and stratum (Montgomery, Design and Analysis of Experiments, 5.3), with what the method takes out taken out, alone and for all rows together: it assumes that all runs scatter alike, and where they do not it calls changes different too often, so that no verdict rests on it; none is given of refits. Days as strata speak of other days from 3 days on (t over the days’ changes), else of these days. `adjust speed exponent 1.5` brings the levels to one speed by a power that is stated, whose uncertainty (`exponent 1.5 ± 0.2`) may widen the interval and never closes it; `adjust temperature` fits a slope, where the plan names it and every side has 4 runs. `reference` takes runs that were made in between, of no condition compared, into the drift. Where the plan says `pooled`, one scatter stands for all runs and the intervals are Dunnett’s (Dunnett 1955), of all pairs Tukey’s (Kramer 1956).',
    operands: [
      {
        name: 'a',
        doc: 'The baseline: runs, their spectrum, or their response.',
        accepts: [{ type: 'value', kinds: ['runs', 'spectrum', 'transfer'] }],
      },
      {
        name: 'b',
        doc: 'What is held against it: one condition or several.',
        accepts: [{ type: 'value', kinds: ['runs', 'spectrum', 'transfer'] }],
        keyword: 'with',
        many: true,
      },
    ],
    options: [
      {
        keyword: 'over',
        mistaken: ['band', 'bands'],
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
      { keyword: 'all-pairs', doc: 'Compare every two conditions, and not only each with the baseline.', accepts: [] },
      {
        keyword: 'within',
        doc: 'Columns of the run sheet, for each of whose words the runs are compared by themselves, and over all.',
        accepts: [{ type: 'channel', role: 'label' }],
        many: true,
      },
      adjustOption,
      {
        keyword: 'axes',
        doc: 'The axes to compare, where the runs have several.',
        accepts: [{ type: 'channel' }],
        many: true,
      },
      {
        keyword: 'reference',
        doc: 'Runs made in between, of no condition compared, that tell of a drift.',
        accepts: [{ type: 'value', kinds: ['runs', 'spectrum', 'transfer'] }],
      },
      { ...metricOption, default: 'rms' },
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
        accepts: [confidenceAccepted],
        default: '95 %',
      },
      {
        keyword: 'margin',
        doc: 'Changes smaller than this, either way, count as none; state it before looking.',
        accepts: [marginAccepted],
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
      decibelsOption,
      referenceOption,
    ],
    elsewhere: [{ words: ['claim', ...directionWords], after: 'claim NAME', isStep: true }],
    gives: 'comparison',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\ngel = load "raw/brick-gel-*.csv.gz" | channel z | trim 10..70 s\ncompare foam with gel primary 10..50 Hz over 4..10 Hz, 50..100 Hz',
      'foam = load sheet "raw/runs.csv" where condition foam | channel z | trim 12..72 s\ngel = load sheet "raw/runs.csv" where condition gel | channel z | trim 12..72 s\ncompare foam with gel within surface over 10..50 Hz',
      'foam = load sheet "raw/runs.csv" where condition foam, surface brick | channel z | trim 12..72 s\ngel = load sheet "raw/runs.csv" where condition gel, surface brick | channel z | trim 12..72 s\ncompare foam with gel metric vdv trend',
    ],
  },
  readsHistory: true,
  takesLong: weightedIn,
  byRuns,
  async evaluate(given, context) {
    const { history } = context;
    const axes = textsIn(given.options.axes);
    const sides: Sides[] = [];
    for (const axis of axes.length === 0 ? [undefined] : axes) {
      const one = sidesIn(given, axis);
      if (!one.ok) return one;
      sides.push(one.value);
    }
    const request = compareRequest(given);
    if (!request.ok) return request;
    const level = levelReferenceIn(given);
    if (!level.ok) return level;
    const found = await comparedSides(sides, request.value, context, figuresIn(given, context));
    if (!found.ok) return found;
    const dated = history === undefined ? found.value : await withPlanAge(found.value, request.value, history.of);
    if (level.value === undefined) return { ...found, value: dated };
    const value = { ...dated, level: level.value };
    return hasLevels(value, level.value) ? { ...found, value } : noLevels(level.value, 're');
  },
};

/** How a comparison that is made by a weighting is written: a filter takes all samples at once. */
function weightedIn(given: Arguments): string | undefined {
  const request = compareRequest(given);
  if (!request.ok) return undefined;
  const metric = metricOf(request.value);
  return isWeighting(metric) ? `compare metric ${metric}` : undefined;
}

/** The sides of one axis, or of the only channel. */
function sidesIn(given: Arguments, axis: string | undefined): Result<Sides> {
  const options = { window: windowOf(given), includesExcluded: hasFlag(given, 'including'), axis };
  const made = ({ value, name }: NamedComparable, at: SideOptions['at']): Result<Side> =>
    sideOf(value, { ...options, name, at });
  const list: Side[] = [];
  for (const [index, one] of comparablesIn(given).entries()) {
    const side = made(one, index === 0 ? 'a' : 'b');
    if (!side.ok) return side;
    list.push(side.value);
  }
  const between = referenceIn(given);
  if (between === undefined) return sidesOf(list);
  const reference = made(between, 'reference');
  return reference.ok ? sidesOf(list, reference.value) : reference;
}

import { piecesOf } from '../../signal/stretch.ts';
import { weighted, weightingNames, type WeightingName } from '../../signal/weighting.ts';
import { hertz, seconds } from '../../analysis/amounts.ts';
import { isAcceleration } from '../../analysis/recordings/dimensions.ts';
import { valueOf, wordOf } from '../arguments.ts';
import { shortestStretch, whyUneven, withSamples } from '../../analysis/recordings/runs.ts';
import { together, type RunWarning } from '../../analysis/together.ts';
import type { Run } from '../../values/run.ts';
import { answer, type Verb } from '../verb.ts';
import { refuse, type Failure } from '../../result/result.ts';

/** Lower and upper frequency in Hz of what a weighting counts: of its band limits, and its highest third-octave band. */
const reach: Readonly<Record<WeightingName, readonly [low: number, high: number]>> = {
  wk: [0.4, 80],
  wd: [0.4, 80],
  wf: [0.08, 0.5],
  wc: [0.4, 80],
  we: [0.4, 80],
  wj: [0.4, 80],
  wh: [6.3, 1250],
};

/** A rate should be so many times the highest frequency counted, and a stretch hold so many periods of the lowest. */
const rateFactor = 2.5;
const periodsWanted = 4;

const purposes: Readonly<Record<WeightingName, string>> = {
  wk: 'vertical, whole body',
  wd: 'horizontal, whole body',
  wf: 'motion sickness',
  wc: 'seat back',
  we: 'rotation',
  wj: 'head of a person lying down',
  wh: 'hand-arm',
};

export const weight: Verb = {
  form: {
    verb: 'weight',
    summary: 'Weights accelerations by how strongly a person responds to each frequency.',
    help: `Frequency weightings as ISO 8041-1 defines them: ${weightingNames.map((name) => `\`${name}\` ${purposes[name]}`).join(', ')} (ISO 2631-1:1997; \`wh\` ISO 5349-1:2001). Each unbroken stretch is transformed whole, multiplied by the weighting’s magnitude and phase, and transformed back: no filter’s error near half the rate. The mean, and gravity in it, is removed by the weighting. Give one weighting for all channels, or one for each in their order: \`wd wd wk\` for x, y and z of a seated person. Weighted levels say something of a person only where the acceleration enters the body: on the seat, or at the hand.`,
    operands: [
      { name: 'runs', doc: 'The runs, of accelerations.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      {
        name: 'weightings',
        doc: 'The weighting: one, or one for each channel.',
        accepts: [{ type: 'word', words: weightingNames }],
        many: true,
      },
    ],
    options: [],
    gives: 'runs',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nweight foam wk',
      'foam = load "raw/brick-foam-*.csv.gz" | trim 10..70 s\nweight foam wd wd wk',
    ],
  },
  evaluate(given, { watch }) {
    const runs = valueOf(given, 'runs', 'runs');
    const uneven = whyUneven(runs);
    if (uneven !== undefined) return uneven;
    const names = given.operands.weightings.map((one) => wordOf(one) as WeightingName);
    const warnings: RunWarning[] = [];
    const done: Run[] = [];
    for (const run of runs.runs) {
      watch.progress(done.length / runs.runs.length, `weighting ${run.label}`);
      const refusal = whyNoWeighting(run, names);
      if (refusal !== undefined) return refusal;
      const own = run.channels.map((_, c) => (names.length === 1 ? names[0] : names[c]));
      warnings.push(...doubts(run, [...new Set(own)]));
      const step = `frequency-weighted ${names.map(symbolOf).join(', ')}`;
      done.push(
        withSamples(run, step, (channel) => {
          const name = own[run.channels.indexOf(channel)];
          const into = new Float64Array(channel.samples.length);
          const pieces = piecesOf(channel.samples, run.stretches);
          piecesOf(into, run.stretches).forEach((piece, s) => weighted(name, pieces[s], run.rate, piece));
          return { samples: into, includesStatic: false, weighting: symbolOf(name) };
        }),
      );
    }
    return answer({ ...runs, runs: done }, together(warnings));
  },
};

/** As it is printed: `Wk`. */
const symbolOf = (name: string): string => name[0].toUpperCase() + name.slice(1);

function whyNoWeighting(run: Run, names: readonly WeightingName[]): { ok: false; failure: Failure } | undefined {
  if (names.length !== 1 && names.length !== run.channels.length) {
    return refuse(
      'weight.count',
      `${run.label} has the channels ${run.channels.map(({ name }) => name).join(', ')}, and ${names.length} weightings are given: give one for all, or one for each.`,
      'weightings',
    );
  }
  for (const { name, unit, weighting } of run.channels) {
    if (weighting !== undefined)
      return refuse('weight.twice', `${name} of ${run.label} is weighted by ${weighting} already.`, 'runs');
    if (!isAcceleration(unit))
      return refuse(
        'weight.unit',
        `${name} of ${run.label} is in ${unit.symbol || 'no unit'}, and only an acceleration can be weighted: take the channels that are one.`,
        'runs',
      );
  }
  return undefined;
}

function doubts(run: Run, names: readonly WeightingName[]): RunWarning[] {
  const { from, to } = shortestStretch(run);
  const length = (to - from) / run.rate;
  return names.flatMap((name) => {
    const [low, high] = reach[name];
    const found: RunWarning[] = [];
    if (run.rate < rateFactor * high) {
      found.push({
        code: 'weight.rate',
        of: run.label,
        alike: name,
        message: `${symbolOf(name)} counts frequencies up to ${hertz(high)}, for which ${run.label} should be sampled at ${hertz(rateFactor * high)} or more, not at ${hertz(run.rate)}: what is missing is not in the level.`,
      });
    }
    if (length * low < periodsWanted) {
      found.push({
        code: 'weight.short',
        of: run.label,
        alike: name,
        message: `${symbolOf(name)} counts frequencies down to ${hertz(low)}, and a stretch of ${run.label} lasts only ${seconds(length)}: take at least ${seconds(periodsWanted / low)}.`,
      });
    }
    return found;
  });
}

import { integrate as integrated } from '../../signal/integrate.ts';
import { moments } from '../../signal/levels.ts';
import { piecesOf } from '../../signal/stretch.ts';
import { dimensionOf, sameDimension } from '../../units/dimension.ts';
import type { Dimension } from '../../units/unit.ts';
import { formatNumber } from '../../units/format.ts';
import { unit } from '../../units/parse.ts';
import { hertz, seconds } from '../../analysis/amounts.ts';
import { operand, siOf, valueOf, wordOf } from '../arguments.ts';
import { shortestStretch, whyUneven, withSamples } from '../../analysis/recordings/runs.ts';
import { together, type RunWarning } from '../../analysis/together.ts';
import type { Channel, Run } from '../../values/run.ts';
import { answer, type Verb } from '../verb.ts';
import { refuse, type Failure } from '../../result/result.ts';

type Goal = 'velocity' | 'displacement';

const usualLowCut = 1;
/** Periods of the low cut that a stretch should hold (engineering choice). */
const periodsWanted = 5;
/** Share of the mean square within an octave above the low cut, from which the cut decides the result. */
const telling = 0.5;

const resultUnit = { velocity: unit('m/s'), displacement: unit('mm') } as const;

export const integrate: Verb = {
  form: {
    verb: 'integrate',
    summary: 'Gives velocity or displacement from acceleration.',
    help: 'Each bin of an unbroken stretch’s transform is divided by 2πif once for velocity (m/s) or twice for displacement (mm); a velocity is integrated once to displacement. Below the low cut nothing is kept: offset and drift, divided by a small frequency, would swamp the rest. The result depends on the low cut, so it is part of the result’s history; set it below the lowest frequency of interest. A sine of 0.30 g r.m.s. at 20 Hz has 0.0234 m/s and 0.186 mm r.m.s.',
    operands: [
      { name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      {
        name: 'goal',
        doc: 'What is wanted.',
        accepts: [{ type: 'word', words: ['velocity', 'displacement'] }],
        keyword: 'to',
      },
    ],
    options: [
      {
        keyword: 'above',
        doc: 'The low cut.',
        accepts: [{ type: 'quantity', dimension: 'frequency', above: 0 }],
        default: '1 Hz',
      },
    ],
    gives: 'runs',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nintegrate foam to velocity above 2 Hz',
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nintegrate foam to displacement above 2 Hz',
    ],
  },
  evaluate(given, { watch }) {
    const runs = valueOf(given, 'runs', 'runs');
    const uneven = whyUneven(runs);
    if (uneven !== undefined) return uneven;
    const goal = wordOf(operand(given, 'goal')) as Goal;
    const lowCut = siOf(given, 'above') ?? usualLowCut;
    const warnings: RunWarning[] = [];
    const done: Run[] = [];
    for (const run of runs.runs) {
      watch.progress(done.length / runs.runs.length, `integrating ${run.label}`);
      const refusal = whyNoIntegral(run, goal, lowCut);
      if (refusal !== undefined) return refusal;
      const shortest = shortestStretch(run);
      const length = (shortest.to - shortest.from) / run.rate;
      if (length * lowCut < periodsWanted) {
        warnings.push({
          code: 'integrate.short',
          of: run.label,
          message: `A stretch of ${run.label} lasts only ${seconds(length)}, less than ${periodsWanted} periods of the low cut of ${hertz(lowCut)}: take a higher low cut.`,
        });
      }
      const step = `integrated to ${goal} above ${formatNumber(lowCut, 6)} Hz`;
      done.push(
        withSamples(run, step, (channel) => {
          const samples = integral(run, channel, goal, lowCut);
          const doubt = whyDoubtful(run, channel, samples, goal, lowCut);
          if (doubt !== undefined) warnings.push(doubt);
          return { samples, unit: resultUnit[goal], unitFrom: 'integration', includesStatic: false };
        }),
      );
    }
    return answer({ ...runs, runs: done }, together(warnings));
  },
};

function whyNoIntegral(run: Run, goal: Goal, lowCut: number): { ok: false; failure: Failure } | undefined {
  if (!(lowCut > 0 && lowCut < run.rate / 2)) {
    return refuse(
      'integrate.low-cut',
      lowCut > 0
        ? `The low cut of ${hertz(lowCut)} is not below half the rate of ${run.label}, which is ${hertz(run.rate / 2)}.`
        : 'The low cut lies above 0 Hz: offset and drift would swamp the result.',
      'above',
    );
  }
  const wrong = run.channels.find(({ unit: { dimension } }) => timesTo(goal, dimension) === undefined);
  if (wrong === undefined) return undefined;
  return refuse(
    'integrate.unit',
    `${wrong.name} of ${run.label} is in ${wrong.unit.symbol || 'no unit'}: ${goal} comes from an acceleration${goal === 'displacement' ? ' or a velocity' : ''}.`,
    'runs',
  );
}

/** How often to integrate, or undefined where there is no way. */
function timesTo(goal: Goal, dimension: Dimension): 1 | 2 | undefined {
  if (sameDimension(dimension, dimensionOf('acceleration'))) return goal === 'velocity' ? 1 : 2;
  return sameDimension(dimension, dimensionOf('speed')) && goal === 'displacement' ? 1 : undefined;
}

function integral(run: Run, channel: Channel, goal: Goal, lowCut: number): Float64Array {
  const into = new Float64Array(channel.samples.length);
  const times = timesTo(goal, channel.unit.dimension)!;
  const pieces = piecesOf(channel.samples, run.stretches);
  piecesOf(into, run.stretches).forEach((piece, s) => integrated(pieces[s], run.rate, times, lowCut, piece));
  const scale = channel.unit.factor / resultUnit[goal].factor;
  for (let i = 0; i < into.length; i++) into[i] *= scale;
  return into;
}

/** Where most of the result lies just above the low cut, another cut would give another result. */
function whyDoubtful(
  run: Run,
  channel: Channel,
  samples: Float64Array,
  goal: Goal,
  lowCut: number,
): RunWarning | undefined {
  const all = moments(samples).m2;
  if (!(all > 0) || 2 * lowCut >= run.rate / 2) return undefined;
  const above = moments(integral(run, channel, goal, 2 * lowCut)).m2;
  const share = 1 - above / all;
  if (share <= telling) return undefined;
  return {
    code: 'integrate.low-cut',
    of: `${run.label}, ${channel.name}`,
    message: `${Math.round(100 * share)} % of the mean square of the ${goal} of ${run.label}, ${channel.name}, lies between ${hertz(lowCut)} and ${hertz(2 * lowCut)}: the low cut decides this figure.`,
  };
}

import type { Method } from '../../statistics/methods.ts';
import { hertz } from '../../analysis/amounts.ts';
import { bandsWithin, bandWarnings } from '../../analysis/spectra/bands.ts';
import type { Refused, Side, Sides } from './sides.ts';
import type { Asked } from './comparison.ts';
import { hasFlag, option, rangesIn, siOf, wordOf } from '../arguments.ts';
import { isOfSignal, isWeighting } from './metrics.ts';
import { fractionalBands, type OctaveFraction } from '../../analysis/spectra/octaves.ts';
import { sameBand } from '../../analysis/planning/planFollowed.ts';
import type { Band } from '../../values/band.ts';
import type { SpectrumEntry } from '../../values/spectrum.ts';
import type { PlanValue, Settled } from '../../values/plan.ts';
import { refuse, type Warning } from '../../result/result.ts';
import type { Argument, Arguments } from '../verb.ts';

export interface AskedWith extends Asked {
  readonly plan: { readonly name: string; readonly value: PlanValue } | undefined;
  readonly warnings: readonly Warning[];
}

/** What a comparison's options ask for, with what its plan settles where they are silent. */
export function askedOf(given: Arguments, sides: Sides): AskedWith | Refused {
  const plan = planIn(option(given, 'plan'));
  const settled: Partial<Settled> = plan?.value.settled ?? {};
  const confidence = siOf(given, 'confidence') ?? settled.confidence ?? 0.95;
  if (!(confidence > 0.5 && confidence < 1))
    return refuse('confidence.range', 'A confidence lies between 50 % and 99.99 %.', 'confidence');
  const margin = siOf(given, 'margin') ?? settled.margin;
  if (margin !== undefined && !(margin > 0))
    return refuse('margin.range', 'A margin is above 0 %: no two levels are the same to the last digit.', 'margin');
  if (hasFlag(given, 'paired') && hasFlag(given, 'trend'))
    return refuse(
      'compare.methods',
      'Choose one of paired and trend: each takes another kind of wandering out.',
      'trend',
    );
  const asked = hasFlag(given, 'paired') ? 'paired' : hasFlag(given, 'trend') ? 'trend' : undefined;
  const method: Method = asked ?? settled.method ?? 'welch';
  const metric = wordOf(option(given, 'metric')) ?? settled.metric ?? 'rms';
  const wrong = whyNoMetric(given, metric, sides);
  if (wrong !== undefined) return wrong;
  const found = bandsOf(given, sides, settled, metric);
  if ('failure' in found) return found;
  const narrow = found.ofSignal || sides.a.spectrum === undefined ? [] : bandWarnings(sides.a.spectrum, found.bands);
  const using =
    given.options.using !== undefined && (sides.a.spectrum ?? sides.b.spectrum ?? sides.a.transfers) !== undefined
      ? [
          {
            code: 'compare.using',
            message: 'What is compared was already cut into segments: its own window counts, not the one after using.',
          },
        ]
      : [];
  const floor = option(given, 'above');
  return { ...found, confidence, margin, method, metric, floor, plan, warnings: [...narrow, ...using] };
}

function planIn(argument: Argument | undefined): AskedWith['plan'] {
  if (argument?.type !== 'value' || argument.value.kind !== 'plan') return undefined;
  return { name: argument.name ?? 'the plan', value: argument.value };
}

function whyNoMetric(given: Arguments, metric: string, { a }: Sides): Refused | undefined {
  if (a.transfers !== undefined && metric !== 'rms')
    return refuse(
      'metric.transfer',
      'Responses are compared by their transmissibility: leave the metric out.',
      'metric',
    );
  if (isOfSignal(metric) && (given.options.over ?? given.options.primary) !== undefined)
    return refuse(
      'metric.band',
      `${metric} is a level of the whole signal, not of a band: take the band out of the runs first, as in "bandpass runs 10..50 Hz".`,
      given.options.over === undefined ? 'primary' : 'over',
    );
  return undefined;
}

interface Bands {
  readonly bands: readonly Band[];
  readonly primary: number | undefined;
  readonly ofSignal: boolean;
}

function bandsOf(given: Arguments, sides: Sides, settled: Partial<Settled>, metric: string): Bands | Refused {
  const whole = wholeSignal(sides);
  if (isOfSignal(metric)) return { bands: [whole], primary: undefined, ofSignal: true };
  const edges = edgesOf(sides);
  const over = given.options.over ?? [];
  const fraction = over.flatMap((argument) => wordOf(argument) ?? [])[0] as OctaveFraction | undefined;
  const ranges = rangesIn(over);
  const held =
    fraction === undefined ? bandsWithin(ranges, edges, 'over') : fractionalBands(fraction, ranges, edges, 'over');
  if (!held.ok) return held;
  const listed = held.value;
  if (fraction !== undefined && listed.length === 0)
    return refuse(
      'band.missing',
      `${fraction} bands need the range they are to cover, as in ${fraction} 4..100 Hz.`,
      'over',
    );
  const primaries = bandsWithin(rangesIn(given.options.primary ?? []), edges, 'primary');
  if (!primaries.ok) return primaries;
  const named = primaries.value;
  const silent = listed.length === 0 && named.length === 0;
  const first = silent ? settled.primary : named[0];
  const others = silent ? (settled.bands ?? []) : listed;
  if (silent) {
    const refusal = plannedOutside([...(first === undefined ? [] : [first]), ...others], edges);
    if (refusal !== undefined) return refusal;
  }
  const bands = first === undefined || others.some((band) => sameBand(band, first)) ? [...others] : [first, ...others];
  const primary = first === undefined ? undefined : bands.findIndex((band) => sameBand(band, first));
  if (bands.length > 0) return { bands, primary, ofSignal: false };
  const weighted = isWeighting(metric) || sides.a.tracks[0].channel.weighting !== undefined;
  if (weighted && sides.a.transfers === undefined) return { bands: [whole], primary: undefined, ofSignal: true };
  return { bands: [usualBand(sides)], primary: undefined, ofSignal: false };
}

function plannedOutside(bands: readonly Band[], edges: readonly SpectrumEntry[]): Refused | undefined {
  const low = Math.min(...edges.map(({ spacing, segmentSamples }) => (spacing * segmentSamples) / 2));
  const past = bands.find(({ to }) => to > low * (1 + 1e-9));
  if (past === undefined) return undefined;
  return refuse(
    'band.outside',
    `The plan’s band up to ${hertz(past.to)} reaches past half the rate, which is ${hertz(low)}.`,
    'plan',
  );
}

/** Each run with the range that its spectrum has: what bands are held against. */
function edgesOf({ a, b }: Sides): SpectrumEntry[] {
  const of = ({ tracks, transfers, spectrum }: Side): SpectrumEntry[] => {
    if (spectrum !== undefined) return [...spectrum.entries];
    return tracks.map(({ run, channel }, index) => {
      const bins = transfers?.[index];
      const reach = bins === undefined ? run.rate : 2 * bins.spacing * (bins.magnitude.length - 1);
      return { run, channel, spacing: reach, segmentSamples: 1 } as SpectrumEntry;
    });
  };
  return [...of(a), ...of(b)];
}

const slowest = ({ a, b }: Sides): number => Math.min(...[...a.tracks, ...b.tracks].map(({ run }) => run.rate));

/** All that the slowest run holds. */
const wholeSignal = (sides: Sides): Band => ({ from: 0, to: slowest(sides) / 2 });

/** Without bands: what vibration there is above 1 Hz, short of where a logger's own filter and folding set in. */
function usualBand(sides: Sides): Band {
  const rate = slowest(sides);
  return { from: Math.min(1, rate / 20), to: Math.floor(rate * 0.4 * 10) / 10 };
}

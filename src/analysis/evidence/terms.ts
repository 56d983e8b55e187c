import { success, type Refused, type Result } from '../../result/result.ts';
import type { Band } from '../../values/band.ts';
import { refuse } from '../messages/evidence.ts';
import { refuse as refuseBand } from '../messages/spectra.ts';
import { isOfSignal } from '../../values/comparison.ts';
import { lineBands, lineOf, type LineMetric } from './lineMetric.ts';
import { isWeighting } from './metrics.ts';
import { metricOf, namesBand, settledBy, type ComparisonRequest, type ComparisonTerms } from './request.ts';
import { measuredIn, sideAt, slowestRun, type Side, type Sides } from './sides.ts';
import { sameBand } from '../planning/planFollowed.ts';
import { bandsWithin } from '../spectra/bands.ts';
import { whyBelowCut } from '../spectra/density.ts';
import { halfRate, isPast, type SpectrumReach } from '../spectra/density.ts';
import { fractionalBands, type OctaveFraction } from '../spectra/octaves.ts';

const usualConfidence = 0.95;

/**
 * What a comparison of these sides is made by: what the request states, else what its plan settles, else what is usual.
 * Refused of a metric that the sides or the bands do not allow, and of bands that reach past what the runs hold.
 */
export function termsOf(request: ComparisonRequest, sides: Sides): Result<ComparisonTerms> {
  const settled = settledBy(request);
  const metric = metricOf(request);
  const bands = whyNoMetric(request, metric, sides) ?? bandsOf(request, metric, sides);
  if (!bands.ok) return bands;
  return success({
    ...bands.value,
    metric,
    confidence: request.confidence ?? settled.confidence ?? usualConfidence,
    margin: request.margin ?? settled.margin,
    method: request.method ?? settled.method,
    floor: request.floor,
    within: request.within.length > 0 ? request.within : (settled.within ?? []),
    adjust: request.adjust.length > 0 ? request.adjust : (settled.adjust ?? []),
    plannedAdjust: (settled.adjust ?? []).map(({ column }) => column),
    isAllPairs: request.isAllPairs || settled.isAllPairs === true,
    isPooled: settled.isPooled === true,
  });
}

function whyNoMetric(request: ComparisonRequest, metric: string, { a }: Sides): Refused | undefined {
  if (a.transfers !== undefined && metric !== 'rms') return refuse('metric.transfer', {}, 'metric');
  if (!(isOfSignal(metric) || lineOf(metric) !== undefined) || !namesBand(request)) return undefined;
  const namesOver = request.bands.length > 0 || request.fraction !== undefined;
  return refuse('metric.band', { metric, isLine: lineOf(metric) !== undefined }, namesOver ? 'over' : 'primary');
}

type Bands = Pick<ComparisonTerms, 'bands' | 'primary' | 'ofSignal'>;

function bandsOf(request: ComparisonRequest, metric: string, sides: Sides): Result<Bands> {
  if (isOfSignal(metric)) return success(wholeSignal(sides));
  const line = lineOf(metric);
  if (line !== undefined) return lineSpan(line, sides);
  const reach = reachOf(sides);
  const named = namesBand(request) ? statedBands(request, reach) : plannedBands(request, reach);
  if (!named.ok) return named;
  const { first, others } = named.value;
  const bands = first === undefined || others.some((band) => sameBand(band, first)) ? others : [first, ...others];
  const primary = first === undefined ? undefined : bands.findIndex((band) => sameBand(band, first));
  if (bands.length > 0) return success({ bands, primary, ofSignal: false });
  const weighted = isWeighting(metric) || sides.a.tracks[0].channel.weighting !== undefined;
  if (weighted && sides.a.transfers === undefined) return success(wholeSignal(sides));
  return success({ bands: [usualBand(sides)], primary: undefined, ofSignal: false });
}

/** From where the line lies lowest in a run to where it lies highest in another. */
function lineSpan(line: LineMetric, sides: Sides): Result<Bands> {
  const all: Band[] = [];
  for (const side of measuredIn(sides)) {
    const bands = lineBands(line, side, sideAt(sides, side));
    if (!bands.ok) return bands;
    all.push(...bands.value);
  }
  const span = { from: Math.min(...all.map(({ from }) => from)), to: Math.max(...all.map(({ to }) => to)) };
  const within = bandsWithin([span], reachOf(sides), 'metric');
  return within.ok ? success({ bands: within.value, primary: undefined, ofSignal: false }) : within;
}

interface NamedBands {
  /** The one that the question is about. */
  readonly first: Band | undefined;
  readonly others: readonly Band[];
}

function statedBands(
  { bands, fraction, primary }: ComparisonRequest,
  reach: readonly SpectrumReach[],
): Result<NamedBands> {
  const others = fraction === undefined ? bandsWithin(bands, reach, 'over') : fractions(fraction, bands, reach);
  if (!others.ok) return others;
  const first = bandsWithin(primary === undefined ? [] : [primary], reach, 'primary');
  return first.ok ? success({ first: first.value[0], others: others.value }) : first;
}

function fractions(
  fraction: OctaveFraction,
  ranges: readonly Band[],
  reach: readonly SpectrumReach[],
): Result<readonly Band[]> {
  return ranges.length === 0
    ? refuse('band.missing', { fraction }, 'over')
    : fractionalBands(fraction, ranges, reach, 'over');
}

function plannedBands(request: ComparisonRequest, reach: readonly SpectrumReach[]): Result<NamedBands> {
  const { primary: first, bands: others = [] } = settledBy(request);
  const shortest = reach.reduce((least, one) => (halfRate(one) < halfRate(least) ? one : least));
  const all = [...(first === undefined ? [] : [first]), ...others];
  const low = all.map((band) => whyBelowCut(band, reach, 'plan')).find((refusal) => refusal !== undefined);
  if (low !== undefined) return low;
  const past = all.find(({ to }) => isPast(to, shortest));
  return past === undefined
    ? success({ first, others })
    : refuseBand(
        'band.outside',
        { from: past.from, to: past.to, run: shortest.run.label, half: halfRate(shortest) },
        'plan',
      );
}

/** How far up each run's spectrum reaches: what bands are held against. */
function reachOf(sides: Sides): SpectrumReach[] {
  const of = ({ tracks, transfers, spectrum }: Side): readonly SpectrumReach[] =>
    spectrum?.entries ??
    tracks.map(({ run, channel }, index) => {
      const bins = transfers?.[index];
      return bins === undefined
        ? { run, channel, spacing: run.rate, segmentSamples: 1 }
        : { run, spacing: bins.spacing, segmentSamples: 2 * (bins.magnitude.length - 1) };
    });
  return measuredIn(sides).flatMap(of);
}

/** All that the slowest run holds. */
const wholeSignal = (sides: Sides): Bands => ({
  bands: [{ from: 0, to: slowestRun(sides).rate / 2 }],
  primary: undefined,
  ofSignal: true,
});

/** Without bands: what vibration there is above 1 Hz, short of where a logger's own filter and folding set in. */
function usualBand(sides: Sides): Band {
  const rate = slowestRun(sides).rate;
  const cuts = [...sides.a.tracks, ...sides.b.tracks].map(({ channel }) => channel.lowCut ?? 0);
  return { from: Math.max(Math.min(1, rate / 20), ...cuts), to: Math.floor(rate * 0.4 * 10) / 10 };
}

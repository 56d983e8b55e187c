import { answered, type Answer, success, type Result, type Warning } from '../../result/result.ts';
import { compare as compareLevels } from '../../statistics/compare.ts';
import type { CompareOptions, Comparison, Levels } from '../../statistics/comparison.ts';
import { densityRatio } from '../../statistics/densityRatio.ts';
import type { Band } from '../../values/band.ts';
import type { ComparisonRow, ComparisonSide, ComparisonValue, DensityRatio } from '../../values/comparison.ts';
import type { Watch } from '../../values/ports.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import { methodText } from '../messages/comparison.ts';
import { noteWarning, refuse, tell } from '../messages/evidence.ts';
import { differences } from './comparability.ts';
import { comparisonRow } from './comparisonRow.ts';
import { layoutOf, orderLetters, type Layout } from './layout.ts';
import { levelName, metricTitle } from './metrics.ts';
import type { ComparisonTerms } from './request.ts';
import type { Side, Sides } from './sides.ts';
import { shareFrequencies } from '../spectra/spectrumMean.ts';
import { measured, type Measured } from './measure.ts';
import { floorDoubts, floorSpectrum, type FloorDoubts } from './noiseFloor.ts';

/** Both sides measured, and the logger at rest. */
interface Measurement {
  readonly sides: Sides;
  readonly a: Measured;
  readonly b: Measured;
  readonly floor: SpectrumValue | undefined;
  /** One a band. */
  readonly levels: readonly Levels[];
}

/**
 * B against A in each band of the terms. Whether the terms follow a plan and whether excluded runs were taken in is not
 * looked at here. Refused where a side or the logger at rest can't be measured, or a run has no vibration in a band.
 */
export function comparisonOf(sides: Sides, terms: ComparisonTerms, watch: Watch): Answer<ComparisonValue> {
  const measurement = measurementOf(sides, terms, watch);
  if (!measurement.ok) return measurement;
  const { a, b, levels } = measurement.value;
  const { confidence, margin, method, primary, bands } = terms;
  const layout = layoutOf(runsOf(sides.a), runsOf(sides.b));
  const { order } = layout;
  const options: CompareOptions = { confidence, margin, method, primary, besides: terms.besides, ...layout };
  const found = compareLevels(levels, options);
  const doubts = bands.map((band) => floorDoubtsOf(band, measurement.value));
  const rows = rowsOf(measurement.value, terms, found, { doubts, layout });
  const unlike = differences(sides, { levels: levels[primary ?? 0], options: { ...options, primary: undefined } });
  const value: ComparisonValue = {
    kind: 'comparison',
    method: methodText(found),
    methodCode: found.method,
    confidence,
    family: found.family,
    sequence: found.sequence,
    ...(found.varianceInflation === undefined ? {} : { varianceInflation: found.varianceInflation }),
    channel: sides.a.channel,
    metric: metricTitle(terms.metric, sides.a, terms.ofSignal),
    metricCode: sides.a.transfers === undefined ? terms.metric : 'transmissibility',
    a: sideValue(sides.a, a, order?.a),
    b: sideValue(sides.b, b, order?.b),
    rows,
    ...(margin === undefined ? {} : { margin }),
    ...ratioOf(a.spectrum, b.spectrum, confidence),
    ...(unlike.guards.length === 0 ? {} : { guards: unlike.guards }),
  };
  const names = { a: sides.a.name, b: sides.b.name };
  const warnings = [
    ...doubts.flatMap((doubt) => doubt.warnings),
    ...unlike.warnings,
    ...found.notes.flatMap((note) => noteWarning(note, names, bands) ?? []),
    ...shareWarnings(rows),
  ];
  return answered(value, warnings);
}

const runsOf = ({ tracks }: Side): Side['tracks'][number]['run'][] => tracks.map(({ run }) => run);

function measurementOf(sides: Sides, terms: ComparisonTerms, watch: Watch): Result<Measurement> {
  const a = measured(sides.a, terms, watch, 'a');
  if (!a.ok) return a;
  const b = measured(sides.b, terms, watch, 'b');
  if (!b.ok) return b;
  const levels = terms.bands.map((band) => levelsIn(band, sides, a.value, b.value));
  const zero = levels.findIndex((one) => ![...one.a, ...one.b].every((level) => level > 0));
  if (zero >= 0) return refuse('compare.zero', { band: terms.bands[zero] }, 'over');
  const measurement = { sides, a: a.value, b: b.value, levels };
  if (terms.floor === undefined) return success({ ...measurement, floor: undefined });
  const floor = floorSpectrum(terms.floor, sides.a, watch);
  return floor.ok ? success({ ...measurement, floor: floor.value }) : floor;
}

function levelsIn(band: Band, sides: Sides, a: Measured, b: Measured): Levels {
  const of = ({ tracks }: Side, { level }: Measured): number[] => tracks.map((_, run) => level(run, band));
  return { a: of(sides.a, a), b: of(sides.b, b) };
}

/** How a band stands to the logger at rest, where there is one and the sides have spectra. */
function floorDoubtsOf(band: Band, { a, b, floor }: Measurement): FloorDoubts {
  if (floor === undefined || a.spectrum === undefined || b.spectrum === undefined) return { warnings: [], guards: [] };
  return floorDoubts(band, floor, [...a.spectrum.entries, ...b.spectrum.entries]);
}

function rowsOf(
  { sides, a, levels }: Measurement,
  { bands, metric, ofSignal, margin, besides }: ComparisonTerms,
  found: Comparison,
  { doubts, layout: { order } }: { readonly doubts: readonly FloorDoubts[]; readonly layout: Layout },
): ComparisonRow[] {
  return found.rows.map((row, index) => {
    const band = bands[index];
    const place = {
      band: ofSignal ? undefined : band,
      level: levelName(metric, sides.a),
      channel: sides.a.channel,
      order: orderLetters(order?.a, order?.b),
      a: sides.a.name,
      b: sides.b.name,
    };
    const { guards } = doubts[index];
    return comparisonRow(
      {
        ...{ band, unit: a.unit, levels: levels[index], shareOfA: a.share?.(band), guards, margin, place },
        isUnplanned: besides !== undefined,
      },
      row,
      found,
    );
  });
}

/** The densities' ratio bin by bin, where the runs of both sides share one frequency axis. */
function ratioOf(
  a: SpectrumValue | undefined,
  b: SpectrumValue | undefined,
  confidence: number,
): { ratio?: DensityRatio } {
  if (a === undefined || b === undefined || !shareFrequencies([...a.entries, ...b.entries])) return {};
  const found = densityRatio(
    a.entries.map(({ density }) => density),
    b.entries.map(({ density }) => density),
    confidence,
  );
  return found === undefined ? {} : { ratio: { ...found, spacing: a.entries[0].spacing, confidence } };
}

function sideValue(side: Side, { spectrum }: Measured, places: readonly number[] | undefined): ComparisonSide {
  const { name, excluded } = side;
  return {
    name,
    runs: runsOf(side),
    spectrum,
    ...(places === undefined ? {} : { places }),
    ...(excluded.length === 0 ? {} : { excluded }),
  };
}

/** A share of the baseline's mean square below which a change hardly changes the whole, in percent (engineering choice). */
const smallShare = 1;

const shareWarnings = (rows: readonly ComparisonRow[]): Warning[] =>
  rows.flatMap(({ band, shareOfA }) =>
    shareOfA !== undefined && shareOfA < smallShare
      ? [tell('compare.small-share', { band, sharePercent: shareOfA })]
      : [],
  );

import { answered, type Answer } from '../../result/result.ts';
import { compareChanges } from '../../statistics/compareChanges.ts';
import { densityRatio } from '../../statistics/densityRatio.ts';
import { isWithholding } from '../../statistics/sequence.ts';
import type { ComparisonSide, DensityRatio } from '../../values/comparisonParts.ts';
import type { ComparisonValue } from '../../values/comparison.ts';
import type { Watch } from '../../values/ports.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import { shareFrequencies } from '../spectra/spectrumMean.ts';
import { adjustedBy } from './adjust.ts';
import type { Compared, ComparedChange } from './compared.ts';
import { comparedRows } from './comparedRows.ts';
import { comparisonDoubts } from './comparisonDoubts.ts';
import { conditionAt, layoutOf } from './knownRuns.ts';
import { measurementOf, type Measurement } from './measurement.ts';
import { levelName } from './metrics.ts';
import type { ComparisonTerms } from './request.ts';
import { comparedIn, measuredIn, type Side, type Sides } from './sides.ts';
import { sensorShares } from './sensors.ts';
import { strataOf, type Strata } from './strata.ts';
import { methodText } from '../messages/comparison.ts';

/**
 * Each condition against the baseline (or every two, where that is asked) in each band of the terms, on each axis, over
 * all strata and in each of them, in one family. Whether the terms follow a plan and whether excluded runs were taken in
 * is not looked at here. Refused where a side or the logger at rest can't be measured, a run has no vibration in a band,
 * or the run sheet does not hold what strata and covariates need.
 *
 * @param axes the sides, one entry an axis
 */
export function comparisonOf(axes: readonly Sides[], terms: ComparisonTerms, watch: Watch): Answer<ComparisonValue> {
  const compared = comparedOf(axes, terms, watch);
  if (!compared.ok) return compared;
  const { measurements, strata, adjusted, found } = compared.value;
  const [{ sides }] = measurements;
  const [first] = found;
  const worst =
    found.find(({ sequence }) => isWithholding(sequence)) ?? found.find(({ sequence }) => sequence === 'leaning');
  const inflation = Math.max(...found.flatMap(({ varianceInflation }) => varianceInflation ?? []));
  const doubts = comparisonDoubts(compared.value);
  const [a, b, ...others] = comparedIn(sides).map((_, index) => sideValue(compared.value, index));
  const value: ComparisonValue = {
    kind: 'comparison',
    method: methodText({ ...first, counts: comparedIn(sides).map(({ tracks }) => tracks.length) }),
    methodCode: first.method,
    confidence: terms.confidence,
    family: first.family,
    sequence: (worst ?? first).sequence,
    ...(Number.isFinite(inflation) ? { varianceInflation: inflation } : {}),
    channel: measurements.map((one) => one.sides.a.channel).join(', '),
    metric: levelName(terms.metric, sides.a),
    metricCode: sides.a.transfers === undefined ? terms.metric : 'transmissibility',
    a,
    b,
    ...(others.length === 0 ? {} : { others }),
    ...(sides.reference === undefined
      ? {}
      : { reference: sideValue(compared.value, measuredIn(sides).indexOf(sides.reference)) }),
    ...(strata === undefined ? {} : { strata: { columns: strata.columns, names: strata.names } }),
    ...(adjusted.asked.length === 0 ? {} : { adjusted: adjusted.asked }),
    ...(terms.isAllPairs && others.length > 0 ? { isAllPairs: true } : {}),
    ...(terms.isPooled ? { isPooled: true } : {}),
    rows: comparedRows(compared.value, doubts),
    ...(terms.margin === undefined ? {} : { margin: terms.margin }),
    ...(isPlain(compared.value) ? ratioOf(a.spectrum, b.spectrum, terms.confidence) : {}),
    ...(doubts.guards.length === 0 ? {} : { guards: doubts.guards }),
  };
  return answered(value, [...doubts.warnings, ...doubts.afterRows(value.rows)]);
}

/** Whether the densities themselves show what the rows do: two conditions, in one stratum, as they were measured, and run by run. */
const isPlain = ({ measurements, changes, adjusted, layout, found: [{ method }] }: Compared): boolean =>
  measurements.length === 1 &&
  changes.length === 1 &&
  adjusted.asked.length === 0 &&
  method !== 'refits' &&
  method !== 'refits-trend' &&
  layout.runs.every(({ isReference }) => isReference !== true);

function comparedOf(axes: readonly Sides[], terms: ComparisonTerms, watch: Watch): Answer<Compared> {
  const measurements: Measurement[] = [];
  for (const sides of axes) {
    const measurement = measurementOf(sides, terms, watch);
    if (!measurement.ok) return measurement;
    measurements.push(measurement.value);
  }
  const [sides] = axes;
  const strata = strataOf(sides, terms.within);
  if (!strata.ok) return strata;
  const adjusted = adjustedBy(sides, terms.adjust, terms.plannedAdjust);
  if (!adjusted.ok) return adjusted;
  const layout = layoutOf(sides, strata.value, adjusted.value.fitted);
  const changes = changesOf(sides, terms, strata.value);
  const { factors, stated } = adjusted.value;
  const sensors = sensorShares(sides);
  const isAdjusted = stated.length > 0;
  const levels = measurements.flatMap(({ levels: ofAxis }) =>
    ofAxis.map((list) => (isAdjusted ? list.map((level, k) => level * factors[k]) : list)),
  );
  const { confidence, margin, method, primary, bands, besides, isPooled } = terms;
  const found = compareChanges(levels, layout.runs, changes, {
    ...{ confidence, margin, method, besides, isPooled, stated: [...stated, ...sensors] },
    primary: primary === undefined ? [] : measurements.map((_, axis) => axis * bands.length + primary),
    isOverDays: layout.isOverDays,
  });
  return answered({
    ...{ measurements, terms, layout, changes, found, levels, sensors },
    strata: strata.value,
    adjusted: adjusted.value,
  });
}

/** Every change that is stated: over all strata first, then in each. */
function changesOf(sides: Sides, { isAllPairs }: ComparisonTerms, strata: Strata | undefined): ComparedChange[] {
  const count = comparedIn(sides).length;
  const baselines = Array.from({ length: isAllPairs ? count - 1 : 1 }, (_, a) => a);
  const pairs = baselines.flatMap((a) => Array.from({ length: count - 1 - a }, (_, k) => ({ a, b: a + 1 + k })));
  const between = pairs.map(({ a, b }) => ({ a, b, from: conditionAt(a), to: conditionAt(b) }));
  return [undefined, ...(strata?.names ?? [])].flatMap((stratum) =>
    between.map((pair) => (stratum === undefined ? pair : { ...pair, stratum })),
  );
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

function sideValue({ measurements, layout, strata }: Compared, index: number): ComparisonSide {
  const sides = measuredIn(measurements[0].sides);
  const { name, excluded, tracks }: Side = sides[index];
  const before = sides.slice(0, index).reduce((sum, side) => sum + side.tracks.length, 0);
  const places = layout.places?.[index];
  return {
    name,
    runs: tracks.map(({ run }) => run),
    spectrum: ofAllAxes(measurements.flatMap(({ measured }) => measured[index].spectrum ?? [])),
    ...(places === undefined ? {} : { places }),
    ...(strata === undefined ? {} : { strata: strata.of.slice(before, before + tracks.length) }),
    ...(excluded.length === 0 ? {} : { excluded }),
  };
}

/** One spectrum of a side with the entries of every axis. */
function ofAllAxes(spectra: readonly SpectrumValue[]): SpectrumValue | undefined {
  if (spectra.length < 2) return spectra.at(0);
  return {
    ...spectra[0],
    entries: spectra.flatMap(({ entries }) => entries),
    means: spectra.flatMap(({ means }) => means),
  };
}

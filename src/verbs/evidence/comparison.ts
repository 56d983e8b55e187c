import { compare as compareLevels } from '../../statistics/compare.ts';
import type { CompareOptions, Comparison, ComparisonRow as Found, Levels } from '../../statistics/comparison.ts';
import type { Method } from '../../statistics/methods.ts';
import { differences } from './comparability.ts';
import { sideSpectrum, type Refused, type Side, type Sides } from './sides.ts';
import { bandHead, bandText, compareSentence, inBand } from '../../analysis/evidence/compareSentence.ts';
import { methodText, noteWarning } from '../../analysis/evidence/methodWords.ts';
import { measuredBands, measuredSignal, measuredTransfers, metricTitle, type Measured } from './metrics.ts';
import { floorDoubts, floorSpectrum } from './noiseFloor.ts';
import { knownOrder } from '../../analysis/evidence/runOrder.ts';
import { densityRatio } from '../../statistics/densityRatio.ts';
import { shareFrequencies } from '../../analysis/spectra/spectrumMean.ts';
import type { Band } from '../../values/band.ts';
import type { ComparisonRow, ComparisonSide, ComparisonValue, DensityRatio } from '../../values/comparison.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import { refuse, type Warning } from '../../result/result.ts';
import type { Argument } from '../verb.ts';
import type { Watch } from '../../values/ports.ts';

/** What is asked of a comparison, once the words are understood. */
export interface Asked {
  readonly metric: string;
  /** With the primary one among them. */
  readonly bands: readonly Band[];
  /** Index of the band named in advance. */
  readonly primary: number | undefined;
  readonly confidence: number;
  readonly margin: number | undefined;
  readonly method: Method;
  /** The level is of the whole signal, and there is one band: all of it. */
  readonly ofSignal: boolean;
  readonly floor?: Argument | undefined;
}

/** Both sides measured and compared; the plan and the excluded runs are the caller's business. */
export function comparisonOf(
  sides: Sides,
  asked: Asked,
  watch: Watch,
): { readonly value: ComparisonValue; readonly warnings: readonly Warning[] } | Refused {
  const a = measured(sides.a, asked, watch, 'a');
  if ('failure' in a) return a;
  const b = measured(sides.b, asked, watch, 'b');
  if ('failure' in b) return b;
  const order = knownOrder(
    sides.a.tracks.map(({ run }) => run),
    sides.b.tracks.map(({ run }) => run),
  );
  const { bands, confidence, margin, method, primary } = asked;
  const options: CompareOptions = { confidence, margin, method, primary, orderA: order?.a, orderB: order?.b };
  const levels = bands.map((band) => levelsIn(band, sides, a, b));
  const zero = levels.findIndex(({ a: inA, b: inB }) => ![...inA, ...inB].every((level) => level > 0));
  if (zero >= 0)
    return refuse(
      'compare.zero',
      `In ${bandText(bands[zero])} a run has no vibration at all, so there is no ratio to give.`,
      'over',
    );
  const found = compareLevels(levels, options);
  const floor = floorSpectrum(asked.floor, sides.a, watch);
  if (floor !== undefined && 'failure' in floor) return floor;
  const warnings: Warning[] = [];
  const rows = found.rows.map((row, index) => {
    const where = placeOf(asked, sides.a, bands[index]);
    const doubts =
      floor === undefined || a.spectrum === undefined || b.spectrum === undefined
        ? { warnings: [], guards: [] }
        : floorDoubts(bands[index], bandHead(bands[index]), floor, [...a.spectrum.entries, ...b.spectrum.entries]);
    warnings.push(...doubts.warnings);
    return rowOf({ band: bands[index], levels: levels[index], where, guards: doubts.guards }, row, found, sides, a);
  });
  const head = primary ?? 0;
  const unlike = differences(sides, { levels: levels[head], options: { ...options, primary: undefined } });
  const title = metricTitle(asked.metric, sides.a, asked.ofSignal);
  const value: ComparisonValue = {
    kind: 'comparison',
    method: methodText(found),
    methodCode: found.method,
    confidence,
    channel: sides.a.channel,
    metric: title,
    metricCode: sides.a.transfers === undefined ? asked.metric : 'transmissibility',
    a: sideValue(sides.a, a, order?.a),
    b: sideValue(sides.b, b, order?.b),
    rows,
    ...(margin === undefined ? {} : { margin }),
    ...ratioOf(a.spectrum, b.spectrum, confidence),
    ...(unlike.guards.length === 0 ? {} : { guards: unlike.guards }),
  };
  const names = { a: sides.a.name, b: sides.b.name, band: (index: number) => bandHead(bands[index]) };
  warnings.push(...unlike.warnings, ...found.notes.map((note) => noteWarning(note, names)), ...shareWarnings(rows));
  return { value, warnings };
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

function measured(side: Side, { metric, ofSignal }: Asked, watch: Watch, at: string): Measured | Refused {
  if (side.transfers !== undefined) return measuredTransfers(side.transfers);
  if (ofSignal) return measuredSignal(side, metric, at);
  const spectrum = sideSpectrum(side, watch, at);
  return 'failure' in spectrum ? spectrum : measuredBands(spectrum);
}

function levelsIn(band: Band, sides: Sides, a: Measured, b: Measured): Levels {
  const of = ({ tracks }: Side, { level }: Measured): number[] => tracks.map((_, run) => level(run, band));
  const levels = { a: of(sides.a, a), b: of(sides.b, b) };
  if (levels.a.length !== 1 || levels.b.length !== 1 || a.blocks === undefined || b.blocks === undefined) return levels;
  return { ...levels, blocksA: a.blocks(0, band), blocksB: b.blocks(0, band) };
}

/** How a sentence begins: with the band, or with the metric of the whole signal. */
function placeOf({ metric, ofSignal }: Asked, side: Side, band: Band): string {
  const title = metricTitle(metric, side, ofSignal);
  if (ofSignal) return `By the ${title}`;
  return title === 'band r.m.s.' ? inBand(band) : `${inBand(band)}, by the ${title},`;
}

interface Placed {
  readonly band: Band;
  readonly levels: Levels;
  readonly where: string;
  readonly guards: readonly string[];
}

function rowOf(
  { band, levels, where, guards }: Placed,
  found: Found,
  comparison: Comparison,
  { a, b }: Sides,
  measuredA: Measured,
): ComparisonRow {
  const { inference, block } = found;
  const interval = inference?.interval ?? block;
  const percents = ({ low, high }: { low: number; high: number }): { lowPercent: number; highPercent: number } => ({
    lowPercent: 100 * (low - 1),
    highPercent: 100 * (high - 1),
  });
  const row = {
    band,
    unit: measuredA.unit,
    // Levels above 0 have all of these.
    a: found.a ?? 0,
    b: found.b ?? 0,
    aRuns: levels.a,
    bRuns: levels.b,
    changePercent: found.changePercent ?? 0,
    changeDb: found.changeDb ?? 0,
    ...(interval === undefined ? { lowPercent: undefined, highPercent: undefined } : percents(interval)),
    p: inference?.p,
    pAdjusted: inference?.pAdjusted,
    outcome: found.outcome,
    shareOfA: measuredA.share?.(band),
  };
  const family = comparison.rows.filter(({ primary }) => !primary).length;
  const sentence = compareSentence(row, { where, a: a.name, b: b.name, family }, comparison, inference);
  const equivalence = inference?.equivalence;
  return {
    ...row,
    sentence,
    ...(found.primary ? { primary: true } : {}),
    ...(found.spread === undefined ? {} : { spread: found.spread }),
    ...(inference === undefined
      ? {}
      : { excludes: inference.excluded, simultaneous: percents(inference.simultaneous) }),
    ...(equivalence === undefined ? {} : { equivalence: { ...percents(equivalence.interval), p: equivalence.p } }),
    ...(found.sensitivity.length === 0
      ? {}
      : {
          sensitivity: found.sensitivity.map(({ method, ratio, interval: other, p }) => ({
            method,
            changePercent: 100 * (ratio - 1),
            ...percents(other),
            p,
          })),
        }),
    ...(guards.length === 0 ? {} : { guards }),
  };
}

function sideValue(
  { name, tracks, excluded }: Side,
  { spectrum }: Measured,
  places: readonly number[] | undefined,
): ComparisonSide {
  return {
    name,
    runs: tracks.map(({ run }) => run),
    spectrum,
    ...(places === undefined ? {} : { places }),
    ...(excluded.length === 0 ? {} : { excluded }),
  };
}

function shareWarnings(rows: readonly ComparisonRow[]): Warning[] {
  return rows
    .filter(({ shareOfA }) => shareOfA !== undefined && shareOfA < 1)
    .map(({ band, shareOfA }) => ({
      code: 'compare.small-share',
      message: `${bandHead(band)} holds only ${(shareOfA ?? 0).toPrecision(2)} % of the mean square of the baseline: a change there is hardly felt.`,
    }));
}

import { success, type Refused, type Result } from '../../result/result.ts';
import { bandMeanSquare, totalMeanSquare } from '../../signal/band.ts';
import { unit as unitNamed } from '../../units/parse.ts';
import type { Unit } from '../../units/unit.ts';
import type { Band } from '../../values/band.ts';
import type { Watch } from '../../values/ports.ts';
import { sampleCount, type Channel } from '../../values/run.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import type { TransferEntry } from '../../values/transfer.ts';
import { refuse } from '../messages/evidence.ts';
import { isAcceleration } from '../recordings/dimensions.ts';
import { bandRow } from '../spectra/bands.ts';
import { channelLevels, doseOf } from '../spectra/channelLevels.ts';
import { densityOf } from '../spectra/density.ts';
import { lineBands, lineOf, measuredLine } from './lineMetric.ts';
import type { ComparisonTerms, KnownOfTracks, SignalLevels } from './request.ts';
import { whyNoSamples, type Side, type SideAt } from './sides.ts';
import { sideSpectrum } from './sideSpectrum.ts';

/** One side measured: a level for each run in each band, in one unit. */
export interface Measured {
  readonly unit: Unit;
  readonly level: (run: number, band: Band) => number;
  /** Share of each run's mean square over all frequencies but 0, in percent. */
  readonly shares?: (band: Band) => readonly number[];
  readonly spectrum: SpectrumValue | undefined;
  /** Where a level lies that is in another band in each run, as a line that goes with the speed is. */
  readonly bandOf?: (run: number) => Band;
  /** Runs whose line hardly stands out. */
  readonly faint?: number;
}

/** A side measured by the metric of the terms; refused where its runs are too short, or of a dose of no acceleration or of a resultant. */
export function measured(
  side: Side,
  { metric, ofSignal, known }: Pick<ComparisonTerms, 'metric' | 'ofSignal' | 'known'>,
  watch: Watch,
  at: SideAt,
): Result<Measured> {
  if (side.transfers !== undefined) return success(measuredTransfers(side.transfers));
  if (ofSignal) return measuredSignal(side, metric, at, known?.levels ?? new Map<Channel, SignalLevels>());
  const spectrum = sideSpectrum(side, watch, at, known);
  if (!spectrum.ok) return spectrum;
  const line = lineOf(metric);
  if (line === undefined) return success(measuredBands(spectrum.value));
  const bands = lineBands(line, { ...side, spectrum: spectrum.value }, at);
  return bands.ok ? success(measuredLines(spectrum.value, bands.value)) : bands;
}

/** The r.m.s. of a line of each run, in a band of its own. */
function measuredLines(spectrum: SpectrumValue, bands: readonly Band[]): Measured {
  const { rms, shares, faint } = measuredLine(spectrum.entries, bands);
  return {
    unit: spectrum.entries[0].channel.unit,
    level: (run) => rms[run],
    shares: () => shares.map((share) => 100 * share),
    spectrum,
    bandOf: (run) => bands[run],
    faint,
  };
}

/** Levels of the whole signal of each run: r.m.s., dose value or percentile. */
function measuredSignal(side: Side, metric: string, at: SideAt, known: KnownOfTracks['levels']): Result<Measured> {
  const refusal = whyNoLevel(side, metric, at);
  if (refusal !== undefined) return refusal;
  const { tracks } = side;
  if (metric === 'vdv') {
    const doses = tracks.map(({ run, channel }) => (known.get(channel) ?? { dose: doseOf(run, channel) }).dose ?? NaN);
    return success({ unit: unitNamed('m/s^1.75'), level: (run) => doses[run], spectrum: undefined });
  }
  const scratch = new Float64Array(
    Math.max(...tracks.map(({ run, channel }) => (known.has(channel) ? 0 : sampleCount(run)))),
  );
  const found = tracks.map(({ channel }) => known.get(channel) ?? channelLevels(channel, scratch));
  const [{ channel: first }] = tracks;
  const { unit } = first;
  if (metric === 'p99') return success({ unit, level: (run) => found[run].p99, spectrum: undefined });
  if (metric === 'p99_9') return success({ unit, level: (run) => found[run].p999, spectrum: undefined });
  return success({ unit, level: (run) => found[run].rms, spectrum: undefined });
}

/** Why a side has no such level of its whole signals: a dose of no acceleration or of a resultant, or of spectra alone. */
export function whyNoLevel({ name: side, tracks: [track] }: Side, metric: string, at: SideAt): Refused | undefined {
  const { name, unit, axes } = track.channel;
  if (metric !== 'vdv') return whyNoSamples(side, track, `metric ${metric}`, at);
  if (!isAcceleration(unit)) return refuse('metric.unit', { channel: name, unit: unit.symbol }, at);
  return axes === undefined ? undefined : refuse('metric.resultant', { axes: axes.map((axis) => axis.name) }, at);
}

/** Band r.m.s. of each run, from its spectrum. */
function measuredBands(spectrum: SpectrumValue): Measured {
  const { entries } = spectrum;
  return {
    unit: entries[0].channel.unit,
    level: (run, band) => bandRow(entries[run], band).rms,
    shares: (band) =>
      entries.map((entry) => {
        const density = densityOf(entry);
        const still = density.density[0] * density.step;
        const inBand = bandMeanSquare(density, band.from, Math.min(band.to, entry.run.rate / 2));
        return (100 * inBand) / (totalMeanSquare(density) - still);
      }),
    spectrum,
  };
}

/** Root mean square of |H1| over a band: what a flat input would come out as. */
function measuredTransfers(entries: readonly TransferEntry[]): Measured {
  return {
    unit: entries[0].unit,
    level: (run, { from, to }) => {
      const { magnitude, spacing, averages } = entries[run];
      const segmentLength = 2 * (magnitude.length - 1);
      const power = {
        density: magnitude.map((value) => value * value),
        step: spacing,
        segmentLength,
        rate: spacing * segmentLength,
        segments: 1,
        averages,
        noiseBandwidth: spacing,
      };
      return Math.sqrt(bandMeanSquare(power, from, Math.min(to, power.rate / 2)) / (to - from));
    },
    spectrum: undefined,
  };
}

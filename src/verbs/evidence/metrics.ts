import { bandMeanSquare, totalMeanSquare } from '../../signal/band.ts';
import { levels, moments, vibrationDose } from '../../signal/levels.ts';
import { piecesOf } from '../../signal/stretch.ts';
import { weighted, weightingNames, type WeightingName } from '../../signal/weighting.ts';
import { unit as unitNamed } from '../../units/parse.ts';
import type { Unit } from '../../units/unit.ts';
import { bandRow } from '../../analysis/spectra/bands.ts';
import { densityOf } from '../../analysis/spectra/density.ts';
import { blockMeanSquares, signalMeanSquares } from '../../analysis/evidence/blocks.ts';
import type { Refused, Side, Track } from './sides.ts';
import { isAcceleration } from '../../analysis/recordings/dimensions.ts';
import { withSamples } from '../../analysis/recordings/runs.ts';
import type { Band } from '../../values/band.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import { refuse } from '../../result/result.ts';

/** Words for what is compared, and what each is. */
export const metrics = {
  rms: 'band r.m.s.',
  vdv: 'vibration dose value',
  p99: '99 % level of |x − mean|',
  p99_9: '99.9 % level of |x − mean|',
} as const;

export const metricWords: readonly string[] = [...Object.keys(metrics), ...weightingNames];

/** One side measured: a level for each run in each band, in one unit. */
export interface Measured {
  readonly unit: Unit;
  readonly level: (run: number, band: Band) => number;
  /** Mean squares of the blocks of a run, for the interval of a single pair. */
  readonly blocks?: (run: number, band: Band) => number[];
  /** Share of the mean square over all frequencies but 0, in percent, mean over the runs. */
  readonly share?: (band: Band) => number;
  readonly spectrum: SpectrumValue | undefined;
}

export const isWeighting = (metric: string): metric is WeightingName =>
  (weightingNames as readonly string[]).includes(metric);

/** Whether a metric is of the whole signal, so that it has no bands. */
export const isOfSignal = (metric: string): boolean => metric === 'vdv' || metric.startsWith('p99');

/** What a metric is called: `band r.m.s.`, `Wk-weighted r.m.s.`. */
export function metricTitle(metric: string, side: Side, ofSignal: boolean): string {
  if (side.transfers !== undefined) return 'transmissibility';
  const { weighting } = side.tracks[0].channel;
  const rms = ofSignal ? 'r.m.s.' : metrics.rms;
  if (isWeighting(metric)) return `${capital(metric)}-weighted ${rms}`;
  const own = metric === 'rms' ? rms : metrics[metric as keyof typeof metrics];
  return weighting === undefined ? own : `${weighting}-weighted ${own}`;
}

const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1);

/** The side with every track weighted, for a metric that is a weighting. */
export function weightedSide(side: Side, metric: WeightingName, at: string): Side | Refused {
  const wrong = side.tracks.find(({ channel }) => channel.weighting !== undefined || !isAcceleration(channel.unit));
  if (wrong !== undefined) {
    const { name, unit, weighting } = wrong.channel;
    const why =
      weighting === undefined
        ? `in ${unit.symbol || 'no unit'}, and only an acceleration can be weighted`
        : `weighted by ${weighting} already: leave the metric out`;
    return refuse('weight.unit', `${name} of ${wrong.run.label} is ${why}.`, at);
  }
  return { ...side, spectrum: undefined, tracks: side.tracks.map((track) => weightedTrack(track, metric)) };
}

function weightedTrack({ run, channel }: Track, metric: WeightingName): Track {
  const into = new Float64Array(channel.samples.length);
  const from = piecesOf(channel.samples, run.stretches);
  piecesOf(into, run.stretches).forEach((piece, s) => weighted(metric, from[s], run.rate, piece));
  const done = withSamples({ ...run, channels: [channel] }, `frequency-weighted ${capital(metric)}`, () => ({
    samples: into,
    includesStatic: false,
    weighting: capital(metric),
  }));
  return { run: done, channel: done.channels[0] };
}

/** Levels of the whole signal of each run: r.m.s., dose value or percentile. */
export function measuredSignal({ tracks }: Side, metric: string, at: string): Measured | Refused {
  const [{ channel: first }] = tracks;
  if (metric === 'vdv') {
    if (!isAcceleration(first.unit))
      return refuse(
        'metric.unit',
        `A vibration dose value is of an acceleration, and ${first.name} is in ${first.unit.symbol || 'no unit'}.`,
        at,
      );
    const doses = tracks.map(({ run, channel }) =>
      vibrationDose(moments(channel.samples), run.rate, channel.unit.factor),
    );
    return { unit: unitNamed('m/s^1.75'), level: (run) => doses[run], spectrum: undefined };
  }
  const scratch = new Float64Array(Math.max(...tracks.map(({ channel }) => channel.samples.length)));
  const found = tracks.map(({ channel }) => levels(channel.samples, scratch));
  const { unit } = first;
  if (metric === 'p99') return { unit, level: (run) => found[run].p99, spectrum: undefined };
  if (metric === 'p99_9') return { unit, level: (run) => found[run].p999, spectrum: undefined };
  const blocks = (run: number): number[] => signalMeanSquares(tracks[run]);
  return { unit, level: (run) => found[run].rms, blocks, spectrum: undefined };
}

/** Band r.m.s. of each run, from its spectrum. */
export function measuredBands(spectrum: SpectrumValue): Measured {
  const { entries } = spectrum;
  return {
    unit: entries[0].channel.unit,
    level: (run, band) => bandRow(entries[run], band).rms,
    blocks: (run, band) => blockMeanSquares(entries[run], band),
    share: (band) => {
      const shares = entries.map((entry) => {
        const density = densityOf(entry);
        const still = density.density[0] * density.step;
        return (
          bandMeanSquare(density, band.from, Math.min(band.to, entry.run.rate / 2)) / (totalMeanSquare(density) - still)
        );
      });
      return (100 * shares.reduce((sum, one) => sum + one, 0)) / shares.length;
    },
    spectrum,
  };
}

/** Root mean square of |H1| over a band: what a flat input would come out as. */
export function measuredTransfers(entries: NonNullable<Side['transfers']>): Measured {
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

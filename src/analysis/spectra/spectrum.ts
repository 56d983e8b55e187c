import { grouped } from '../../numbers/grouped.ts';
import { answered, type Answer, type Warning } from '../../result/result.ts';
import { confidenceFactors } from '../../signal/confidence.ts';
import { summedDensity } from '../../signal/resultant.ts';
import { peakAmplitude, welchDensity, type Density } from '../../signal/welch.ts';
import { sharedWindow } from '../../signal/windows.ts';
import { chiSquareQuantile } from '../../statistics/distributions/chiSquare.ts';
import { densityUnit } from '../../units/parse.ts';
import type { Watch } from '../../values/ports.ts';
import { axesOf, type Channel, type Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { SpectrumEntry, SpectrumValue } from '../../values/spectrum.ts';
import type { WindowValue } from '../../values/window.ts';
import { whyNoIntegral } from '../conditioning/integrate.ts';
import { tell } from '../messages/spectra.ts';
import { pieces } from '../recordings/runs.ts';
import { evenly } from '../recordings/uniformRate.ts';
import { together } from '../together.ts';
import { integratedChannel, integratedDensity, type SpectrumGoal } from './integratedSpectrum.ts';
import { leftOutOf, segmentSamples, whyTooShort } from './segments.ts';
import { meansOf } from './spectrumMean.ts';

/** Fewer effective averages than this leave a bin too uncertain not to say so. */
const fewAverages = 8;

/** How a spectrum is taken. */
export interface SpectrumRequest {
  readonly window: WindowValue;
  /** Density, or height of lines; a density unless given. */
  readonly form?: SpectrumValue['form'] | undefined;
  /** Of the limits, 0 to 1; 0.95 unless given. */
  readonly confidence?: number | undefined;
  /** Whether nothing is wanted but the densities: no levels, limits and means. */
  readonly bare?: boolean;
  /** Of velocity or displacement rather than of the channels as they are. */
  readonly integrate?: SpectrumGoal | undefined;
}

/**
 * Spectra of every run and channel by Welch's method (Welch 1967, IEEE Trans. Audio Electroacoust. 15), with limits
 * from chi-square, and their means over runs; of a resultant the sum of its axes' densities. One-sided, in unit^2/Hz or
 * the channel's unit; bin k is at k x rate / segment. Refuses runs too uneven to be brought to a uniform rate, runs
 * that hold no segment, and of velocity or displacement channels that it can't come from.
 * @param at the operand or option to blame where a run holds no segment
 * @param known densities that were made before, of runs that are too large for memory
 */
export function spectrumOf(
  asked: Pick<RunsValue, 'set' | 'runs'>,
  { window, form = 'psd', confidence = 0.95, integrate, bare = false }: SpectrumRequest,
  watch: Watch,
  at = 'using',
  known: ReadonlyMap<Channel, Density> = new Map(),
): Answer<SpectrumValue> {
  const even = evenly(asked, 'spectrum');
  if (!even.ok) return even;
  const runs = even.value;
  const refusal = whyTooShort(runs.runs, window, at);
  if (refusal !== undefined) return refusal;
  const entries: SpectrumEntry[] = [];
  const total = runs.runs.reduce((sum, run) => sum + run.channels.length, 0);
  for (const run of runs.runs) {
    const refusal = integrate && whyNoIntegral(run, integrate.goal, integrate.lowCut);
    if (refusal !== undefined) return refusal;
    const shape = sharedWindow(window.shape, segmentSamples(run, window));
    for (const channel of run.channels) {
      watch.progress(entries.length / total, `spectrum of ${run.label}, ${channel.name}`);
      const options = { shape, rate: run.rate, overlap: window.overlap, cancelled: watch.cancelled };
      const density =
        known.get(channel) ?? summedDensity(axesOf(channel).map((axis) => welchDensity(pieces(run, axis), options)));
      const of = integrate === undefined ? channel : integratedChannel(channel, integrate);
      const found = integrate === undefined ? density : integratedDensity(density, channel, integrate);
      const entry = bareEntry(run, of, found, form);
      entries.push(bare ? entry : { ...entry, ...levelOf(found, form, confidence) });
    }
  }
  const means = bare ? [] : meansOf(entries, form, confidence);
  const value: SpectrumValue = { kind: 'spectrum', form, set: runs.set, window, confidence, entries, means };
  return answered(value, [...even.warnings, ...together(leftOutOf(runs.runs, window)), ...doubts(entries)]);
}

/** Told once, of all runs with few averages. */
function doubts(entries: readonly SpectrumEntry[]): Warning[] {
  const few = grouped(
    entries.filter(({ averages }) => averages < fewAverages),
    ({ run }) => run.label,
  );
  const code = 'spectrum.few';
  return together(
    few.map(([{ run, segments, averages }]) => ({
      code,
      of: run.label,
      tell: (others) => tell(code, { run: run.label, segments, averages, fewest: fewAverages, others }),
    })),
  );
}

const none = new Float64Array(0);

/** An entry without what is made of its density for a reader. */
function bareEntry(run: Run, channel: Channel, found: Density, form: SpectrumValue['form']): SpectrumEntry {
  return {
    run,
    channel,
    unit: form === 'amplitude' ? channel.unit : densityUnit(channel.unit),
    spacing: found.step,
    segments: found.segments,
    segmentSamples: found.segmentLength,
    noiseBandwidth: found.noiseBandwidth,
    averages: found.averages,
    level: none,
    low: none,
    high: none,
    density: found.density,
  };
}

function levelOf(
  found: Density,
  form: SpectrumValue['form'],
  confidence: number,
): Pick<SpectrumEntry, 'level' | 'low' | 'high'> {
  const amplitude = form === 'amplitude';
  const level = amplitude ? peakAmplitude(found) : found.density;
  const limits = limitsAt(found, confidence);
  return {
    level,
    low: level.map((value, k) => value * (amplitude ? Math.sqrt(limits(k).lower) : limits(k).lower)),
    high: level.map((value, k) => value * (amplitude ? Math.sqrt(limits(k).upper) : limits(k).upper)),
  };
}

/** The bins at 0 and at half the rate are real, not complex: half the degrees of freedom. */
function limitsAt(found: Density, confidence: number): (k: number) => { lower: number; upper: number } {
  const usual = confidenceFactors(found.averages, confidence, chiSquareQuantile);
  const wide = confidenceFactors(found.averages / 2, confidence, chiSquareQuantile);
  const last = found.segmentLength % 2 === 0 ? found.density.length - 1 : -1;
  return (k) => (k === 0 || k === last ? wide : usual);
}

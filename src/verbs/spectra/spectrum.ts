import { confidenceFactors } from '../../signal/confidence.ts';
import { peakAmplitude, welchDensity, type Density } from '../../signal/welch.ts';
import { windowShape } from '../../signal/windows.ts';
import { chiSquareQuantile } from '../../statistics/distributions/chiSquare.ts';
import { densityUnit } from '../../units/parse.ts';
import { option, siOf, valueOf, wordOf } from '../arguments.ts';
import { meansOf } from '../../analysis/spectra/spectrumMean.ts';
import { pieces, whyUneven } from '../../analysis/recordings/runs.ts';
import type { Channel, Run } from '../../values/run.ts';
import type { SpectrumEntry, SpectrumValue } from '../../values/spectrum.ts';
import type { WindowValue } from '../../values/window.ts';
import { answer, type Verb } from '../verb.ts';
import { refuse, type Warning } from '../../result/result.ts';
import type { Watch } from '../../values/ports.ts';
import { usingOption } from './using.ts';
import { windowOf } from './window.ts';

export const spectrum: Verb = {
  form: {
    verb: 'spectrum',
    summary: 'Gives the spectrum of each run and channel, with confidence limits.',
    help: 'Welch’s method (Welch 1967, IEEE Trans. Audio Electroacoust. 15): one-sided, the mean of each segment removed, periodic window, mean of powers. `psd` is a density in unit²/Hz, right for broadband vibration; `amplitude` is the height of a sine in the channel’s unit, right for lines. The limits are those of each bin by itself, from chi-square with twice the effective number of averages (overlapping segments count for less); they say nothing about another run. No segment crosses a gap.',
    operands: [{ name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] }],
    options: [
      usingOption,
      {
        keyword: 'as',
        doc: 'Density, or height of lines.',
        accepts: [{ type: 'word', words: ['psd', 'amplitude'] }],
        default: 'psd',
      },
      {
        keyword: 'confidence',
        doc: 'Of the limits.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0.5, most: 0.9999 }],
        default: '95 %',
      },
    ],
    gives: 'spectrum',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nspectrum foam using window hann 2 s',
    ],
  },
  evaluate(given, { watch }) {
    const runs = valueOf(given, 'runs', 'runs');
    const uneven = whyUneven(runs);
    if (uneven !== undefined) return uneven;
    const window = windowOf(option(given, 'using'));
    const form = wordOf(option(given, 'as')) === 'amplitude' ? 'amplitude' : 'psd';
    const confidence = siOf(given, 'confidence') ?? 0.95;
    if (!(confidence > 0 && confidence < 1))
      return refuse('confidence.range', 'A confidence lies between 50 % and 99.99 %.', 'confidence');
    for (const run of runs.runs) {
      const refusal = whyTooShort(run, window);
      if (refusal !== undefined) return refuse('window.long', refusal, 'using');
    }
    return answer(...spectrumOf(runs, window, form, confidence, watch));
  },
};

/** Spectra of every run and channel; whoever calls has seen to it that each run holds a segment. */
export function spectrumOf(
  runs: { readonly set: string | undefined; readonly runs: readonly Run[] },
  window: WindowValue,
  form: SpectrumValue['form'],
  confidence: number,
  watch: Watch,
): [SpectrumValue, Warning[]] {
  const shapes = new Map<number, Float64Array>();
  const entries: SpectrumEntry[] = [];
  const total = runs.runs.reduce((sum, run) => sum + run.channels.length, 0);
  for (const run of runs.runs) {
    const length = segmentSamples(run, window);
    let shape = shapes.get(length);
    if (shape === undefined) shapes.set(length, (shape = windowShape(window.shape, length)));
    for (const channel of run.channels) {
      watch.progress(entries.length / total, `spectrum of ${run.label}, ${channel.name}`);
      const density = welchDensity(pieces(run, channel), {
        shape,
        rate: run.rate,
        overlap: window.overlap,
        cancelled: watch.cancelled,
      });
      entries.push(entryOf(run, channel, density, form, confidence));
    }
  }
  const few = entries.filter(({ averages }) => averages < 8);
  const warnings: Warning[] = [];
  if (few.length > 0) {
    warnings.push({
      code: 'spectrum.few',
      message: `Only ${few[0].segments} ${few[0].segments === 1 ? 'segment goes' : 'segments go'} into the spectrum of ${few[0].run.label}, so each bin is uncertain by ${Math.round(100 / Math.sqrt(few[0].averages))} %: use a shorter window or a longer stretch.`,
    });
  }
  return [
    { kind: 'spectrum', form, set: runs.set, window, confidence, entries, means: meansOf(entries, form, confidence) },
    warnings,
  ];
}

/** Samples of a segment: round(length x rate), so that the bin spacing is exactly rate / samples. */
export const segmentSamples = (run: Run, window: WindowValue): number => Math.round(window.length * run.rate);

export function whyTooShort(run: Run, window: WindowValue): string | undefined {
  const needed = segmentSamples(run, window);
  if (needed < 4)
    return `A segment of ${window.length} s holds only ${needed} samples at ${round(run.rate)} Hz: take a longer window.`;
  const longest = Math.max(...run.stretches.map(({ from, to }) => to - from));
  if (longest >= needed) return undefined;
  const gaps = run.stretches.length > 1 ? ' unbroken' : '';
  return `The longest${gaps} stretch of ${run.label} is ${round(longest / run.rate)} s, and a segment of ${window.length} s does not fit in it: take a shorter window.`;
}

const round = (value: number): string => String(Number(value.toPrecision(4)));

function entryOf(
  run: Run,
  channel: Channel,
  found: Density,
  form: SpectrumValue['form'],
  confidence: number,
): SpectrumEntry {
  const { lower, upper } = confidenceFactors(found.averages, confidence, chiSquareQuantile);
  const amplitude = form === 'amplitude';
  const level = amplitude ? peakAmplitude(found) : found.density;
  const limits = limitsAt(found, confidence, lower, upper);
  return {
    run,
    channel,
    unit: amplitude ? channel.unit : densityUnit(channel.unit),
    spacing: found.step,
    segments: found.segments,
    segmentSamples: found.segmentLength,
    noiseBandwidth: found.noiseBandwidth,
    averages: found.averages,
    level,
    low: level.map((value, k) => value * (amplitude ? Math.sqrt(limits(k).lower) : limits(k).lower)),
    high: level.map((value, k) => value * (amplitude ? Math.sqrt(limits(k).upper) : limits(k).upper)),
    density: found.density,
  };
}

/** The bins at 0 and at half the rate are real, not complex: half the degrees of freedom. */
function limitsAt(
  found: Density,
  confidence: number,
  lower: number,
  upper: number,
): (k: number) => { lower: number; upper: number } {
  const wide = confidenceFactors(found.averages / 2, confidence, chiSquareQuantile);
  const last = found.segmentLength % 2 === 0 ? found.density.length - 1 : -1;
  const usual = { lower, upper };
  return (k) => (k === 0 || k === last ? wide : usual);
}

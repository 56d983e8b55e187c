import type { BandsValue } from '../../src/values/bands.ts';
import { signalsOf, type Run, type Signal } from '../../src/values/run.ts';
import { changed } from '../../src/values/resultant.ts';
import type { ComparisonRow } from '../../src/values/comparisonParts.ts';
import type { ComparisonValue } from '../../src/values/comparison.ts';
import type { LevelsValue } from '../../src/values/levels.ts';
import type { RunsValue } from '../../src/values/runs.ts';
import type { SpectrumEntry, SpectrumValue } from '../../src/values/spectrum.ts';
import type { WindowValue } from '../../src/values/window.ts';
import type { Dimension, Unit } from '../../src/units/unit.ts';

/** Values made up for charts and their tests: a seat pad of foam against one of gel. Seeded. */

const none: Dimension = { length: 0, mass: 0, time: 0, count: 0, level: 0, angle: 0 };
export const g: Unit = { symbol: 'g', dimension: { ...none, length: 1, time: -2 }, factor: 9.80665 };
export const density: Unit = { symbol: 'g^2/Hz', dimension: { ...none, length: 2, time: -3 }, factor: 9.80665 ** 2 };
export const plainUnit: Unit = { symbol: '', dimension: none, factor: 1 };
export const hertzUnit: Unit = { symbol: 'Hz', dimension: { ...none, time: -1 }, factor: 1 };

/** Repeatable numbers of [0, 1): mulberry32. */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

function gaussian(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

const layout = { format: 'delimited text', delimiter: ',', decimal: '.' as const, rows: 29750 };

/** A ride of 85 s at 350 Hz: still, rolling between 6 and 79 s, still. Gravity on z. */
export function madeRun(label: string, seed: number, gain = 1, channels = ['z']): Run {
  const random = seeded(seed);
  const rate = 350;
  const length = 29750;
  const made = channels.map((name): Signal => {
    const samples = new Float64Array(length);
    let slow = 0;
    for (let index = 0; index < length; index++) {
      const t = index / rate;
      const moving = Math.min(1, Math.max(0, (t - 6) / 1.5)) * Math.min(1, Math.max(0, (79 - t) / 1.5));
      slow = 0.8 * slow + gaussian(random) * 0.11;
      const bump = random() < 0.0004 ? 1.6 : 0;
      samples[index] = (name === 'z' ? 1 : 0) + gain * (slow + bump) * moving + 0.004 * gaussian(random);
    }
    return { name, unit: g, unitFrom: 'the header', samples, includesStatic: true };
  });
  return {
    label,
    file: { path: `raw/${label}.csv`, bytes: 1234567, sha256: seed.toString(16).padStart(64, '0') },
    rate,
    channels: made,
    stretches: [{ from: 0, to: length, start: 0 }],
    start: 0,
    history: [],
    findings: [],
    layout,
  };
}

export function trimmedRun(whole: Run, from: number, to: number): Run {
  const first = Math.round(from * whole.rate);
  const last = Math.round(to * whole.rate);
  return {
    ...whole,
    channels: whole.channels.map((channel) =>
      changed(channel, (signal) => ({ ...signal, samples: signal.samples.subarray(first, last) })),
    ),
    stretches: [{ from: 0, to: last - first, start: from }],
    start: from,
    untrimmed: whole,
    history: [`trim ${from}..${to} s`],
  };
}

export function madeRuns(set: string, letter: string, count = 4, gain = 1, channels = ['z']): RunsValue {
  const runs = Array.from({ length: count }, (_, index) =>
    trimmedRun(madeRun(`${letter}${index + 1}`, 17 * letter.charCodeAt(0) + index, gain, channels), 8, 76),
  );
  return { kind: 'runs', set, runs };
}

export const hann: WindowValue = { kind: 'window', shape: 'hann', length: 2, overlap: 0.5 };

const resonance = (f: number, centre: number, width: number): number =>
  1 / ((f / centre - centre / f) ** 2 * (centre / width) ** 2 + 1);

/** Density in g²/Hz of a ride with two resonances, made-up. */
const ride = (f: number, shift: number, damp: number): number =>
  f === 0
    ? 1e-9
    : 2e-3 * resonance(f, 18 * shift, 9) + 6e-4 * damp * resonance(f, 47, 16) + 2e-5 / (1 + (f / 60) ** 4) + 4e-8;

export interface SpectrumRecipe {
  readonly set: string;
  readonly runs: readonly Run[];
  readonly shift: number;
  readonly damp: number;
  readonly seed: number;
  readonly bins?: number;
  readonly spacing?: number;
}

/** Spectra as Welch's method would give them: a smooth density times scatter of 80 averages. */
export function madeSpectrum({
  set,
  runs,
  shift,
  damp,
  seed,
  bins = 351,
  spacing = 0.5,
}: SpectrumRecipe): SpectrumValue {
  const random = seeded(seed);
  const entries = runs.flatMap((run) =>
    run.channels.map((channel): SpectrumEntry => {
      const gain = Math.exp(0.05 * gaussian(random)) * (channel.name === 'z' ? 1 : channel.name === 'x' ? 0.3 : 0.08);
      const level = Float64Array.from(
        { length: bins },
        (_, bin) => gain * ride(bin * spacing, shift, damp) * Math.exp(gaussian(random) / Math.sqrt(80)),
      );
      return {
        run,
        channel,
        unit: density,
        spacing,
        segments: 67,
        segmentSamples: 2 * (bins - 1),
        noiseBandwidth: 1.5 * spacing,
        averages: 63.6,
        level,
        low: level.map((value) => value * 0.79),
        high: level.map((value) => value * 1.31),
        density: level,
      };
    }),
  );
  const channels = [...new Set(entries.map(({ channel }) => channel.name))];
  const means = channels.map((channel) => {
    const own = entries.filter((entry) => entry.channel.name === channel);
    const level = Float64Array.from(
      { length: bins },
      (_, bin) => own.reduce((sum, entry) => sum + entry.level[bin], 0) / own.length,
    );
    return {
      channel,
      unit: density,
      spacing,
      level,
      low: level.map((value) => value * 0.89),
      high: level.map((value) => value * 1.14),
    };
  });
  return { kind: 'spectrum', form: 'psd', set, window: hann, confidence: 0.95, entries, means };
}

export const studyBands = [
  { from: 10, to: 30 },
  { from: 30, to: 50 },
  { from: 50, to: 100 },
];

export function madeBands(spectrum: SpectrumValue, bands: BandsValue['bands'] = studyBands): BandsValue {
  const rows = spectrum.entries.flatMap(({ run, channel, spacing, density: level }) =>
    bands.map((band) => {
      let sum = 0;
      for (let bin = Math.ceil(band.from / spacing); bin < Math.min(level.length, band.to / spacing); bin++)
        sum += level[bin] * spacing;
      return { run, channel, band, unit: g, rms: Math.sqrt(sum) };
    }),
  );
  return { kind: 'bands', set: spectrum.set, bands, rows };
}

const mean = (figures: readonly number[]): number => figures.reduce((sum, figure) => sum + figure, 0) / figures.length;

/** A comparison of two made-up spectra; its intervals have the right form, not the right size. */
export function madeComparison(a: SpectrumValue, b: SpectrumValue, bands = studyBands): ComparisonValue {
  const rmsOf = (spectrum: SpectrumValue, index: number): number[] =>
    madeBands(spectrum, bands)
      .rows.filter(({ band }) => band === bands[index])
      .map(({ rms }) => rms);
  const rows = bands.map((band, index): ComparisonRow => {
    const [aRuns, bRuns] = [rmsOf(a, index), rmsOf(b, index)];
    const [lnA, lnB] = [aRuns, bRuns].map((runs) => mean(runs.map(Math.log)));
    const half = 0.05 + 0.03 * index;
    const ratio = Math.exp(lnB - lnA);
    const [low, high] = [ratio * Math.exp(-half), ratio * Math.exp(half)];
    const outcome = high < 1 ? 'lower' : low > 1 ? 'higher' : 'not shown';
    return {
      band,
      baseline: a.set ?? 'A',
      condition: b.set ?? 'B',
      channel: 'z',
      family: 1,
      methodCode: 'welch',
      unit: g,
      a: Math.exp(lnA),
      b: Math.exp(lnB),
      aRuns,
      bRuns,
      changePercent: 100 * (ratio - 1),
      changeDb: 20 * Math.log10(ratio),
      lowPercent: 100 * (low - 1),
      highPercent: 100 * (high - 1),
      p: 0.004 * (index + 1) ** 2,
      pAdjusted: 0.012 * (index + 1) ** 2,
      outcome,
      sentence: `In ${band.from} to ${band.to} Hz gel gave ${outcome === 'lower' ? 'less' : outcome === 'higher' ? 'more' : 'no settled change of'} vibration.`,
      shareOfA: 100 * (Math.exp(lnA) / 0.32) ** 2,
    };
  });
  return {
    kind: 'comparison',
    method: 'Welch t interval on the logarithms of the runs’ band r.m.s.',
    methodCode: 'welch',
    confidence: 0.95,
    channel: 'z',
    metric: 'band r.m.s.',
    a: { name: a.set ?? 'A', runs: a.entries.map(({ run }) => run), spectrum: a },
    b: { name: b.set ?? 'B', runs: b.entries.map(({ run }) => run), spectrum: b },
    rows,
  };
}

export function madeLevels(value: RunsValue): LevelsValue {
  const rows = value.runs.flatMap((run) =>
    signalsOf(run).map((channel) => {
      const x = channel.samples;
      const average = mean([...x]);
      const square = mean([...x].map((sample) => (sample - average) ** 2));
      const rms = Math.sqrt(square);
      const peak = x.reduce((top, sample) => Math.max(top, Math.abs(sample - average)), 0);
      return {
        run,
        channel,
        mean: average,
        rms,
        totalRms: Math.sqrt(square + average ** 2),
        peak,
        peakToPeak: 2 * peak,
        crestFactor: peak / rms,
        kurtosis: mean([...x].map((sample) => (sample - average) ** 4)) / square ** 2,
        skewness: 0.1,
        vdv: 6.3,
        percentile99: 3 * rms,
        percentile999: 4.1 * rms,
        mtvv: 1.4 * rms,
        mtvvAt: 33.5,
        duration: x.length / run.rate,
      };
    }),
  );
  return { kind: 'levels', set: value.set, rows };
}

export const foam = madeRuns('foam', 'a');
export const gel = madeRuns('gel', 'b', 4, 0.85);
export const foamSpectrum = madeSpectrum({ set: 'foam', runs: foam.runs, shift: 1, damp: 1, seed: 3 });
export const gelSpectrum = madeSpectrum({ set: 'gel', runs: gel.runs, shift: 0.86, damp: 0.45, seed: 5 });

import type { DensityRatio } from '../../src/values/comparisonParts.ts';
import type { ComparisonValue } from '../../src/values/comparison.ts';
import type { EarlierValue } from '../../src/values/earlier.ts';
import type { PooledValue } from '../../src/values/pooled.ts';
import type { FindingsValue } from '../../src/values/findings.ts';
import type { Run } from '../../src/values/run.ts';
import type { SpectrumValue } from '../../src/values/spectrum.ts';
import type { PeaksValue } from '../../src/values/peaks.ts';
import type { RepeatsValue } from '../../src/values/repeats.ts';
import type { ProfileValue } from '../../src/values/profile.ts';
import type { RunningValue } from '../../src/values/running.ts';
import type { ShockValue } from '../../src/values/shock.ts';
import type { SpectrogramValue } from '../../src/values/spectrogram.ts';
import type { LoggersValue } from '../../src/values/loggers.ts';
import type { TransferValue } from '../../src/values/transfer.ts';
import type { VerdictValue } from '../../src/values/verdict.ts';
import { density, g, hann, plainUnit, seeded } from './madeUp.ts';

/** Made-up values of the kinds beyond the first set. */

export function madePeaks(spectrum: SpectrumValue): PeaksValue {
  const row = (frequency: number, level: number, width?: number): PeaksValue['rows'][number] => ({
    run: 'mean',
    channel: 'z',
    frequency,
    level,
    shape: width === undefined ? 'line' : 'resonance',
    correction: width === undefined ? 0.04 : undefined,
    unit: density,
    width,
    damping: width === undefined ? undefined : width / (2 * frequency),
    prominence: 11.2,
  });
  return {
    kind: 'peaks',
    spectrum,
    rows: [row(17.9, 2.15e-3, 6.2), row(20.4, 1.9e-3), row(22.1, 1.6e-3), row(47.3, 8e-4, 15.1), row(94.6, 6.1e-5)],
  };
}

export function madeTransfer(run: Run): TransferValue {
  const random = seeded(4);
  const bins = 351;
  const at = (make: (f: number) => number): Float64Array =>
    Float64Array.from({ length: bins }, (_, bin) => make(bin * 0.5));
  const ratio = (f: number): number => f / 22;
  const magnitude = at(
    (f) =>
      (Math.sqrt(1 + (0.4 * ratio(f)) ** 2) / Math.sqrt((1 - ratio(f) ** 2) ** 2 + (0.4 * ratio(f)) ** 2)) *
      (1 + 0.1 * (random() - 0.5)),
  );
  const coherence = at((f) =>
    Math.max(0.02, Math.min(0.99, 1.05 / (1 + (f / 90) ** 6) - (f > 45 && f < 52 ? 0.5 : 0) - 0.05 * random())),
  );
  return {
    kind: 'transfer',
    set: 'foam',
    window: hann,
    leastCoherence: 0.6,
    entries: [
      {
        run,
        from: 'frame',
        to: 'seat',
        unit: plainUnit,
        spacing: 0.5,
        averages: 63.6,
        delay: 0.004,
        aligned: 0,
        magnitude,
        magnitudeH2: magnitude,
        phase: at(
          (f) =>
            (-180 / Math.PI) * Math.atan2(0.4 * ratio(f) ** 3, 1 - ratio(f) ** 2 + (0.4 * ratio(f)) ** 2) +
            8 * (random() - 0.5),
        ),
        coherence,
        randomError: coherence.map((value) => Math.sqrt((1 - value) / (2 * value * 63.6))),
      },
    ],
  };
}

export function madeSpectrogram(run: Run): SpectrogramValue {
  const random = seeded(8);
  const [bins, segments] = [176, 67];
  const level = new Float64Array(bins * segments);
  for (let segment = 0; segment < segments; segment++) {
    const speed = 1 + 0.3 * Math.sin(segment / 9);
    for (let bin = 1; bin < bins; bin++) {
      const f = bin;
      const line = Math.exp(-(((f - 18 * speed) / 3) ** 2)) * 2e-3 + Math.exp(-(((f - 47) / 8) ** 2)) * 5e-4;
      level[segment * bins + bin] = (line + 3e-6 / (1 + (f / 60) ** 4) + 1e-8) * -Math.log(1 - random());
    }
  }
  const times = Float64Array.from({ length: segments }, (_, segment) => 9 + segment + (segment > 40 ? 6 : 0));
  return {
    kind: 'spectrogram',
    set: 'foam',
    window: { ...hann, length: 1 },
    entries: [{ run, channel: run.channels[0], unit: density, spacing: 1, bins, times, density: level }],
  };
}

export function madeRunning(runs: readonly Run[]): RunningValue {
  const entries = runs.map((run, seed) => {
    const random = seeded(seed + 1);
    const times = Float64Array.from({ length: 3000 }, (_, index) => 9 + index * 0.022);
    const rms = times.map(
      (t) => 0.18 + 0.05 * Math.sin(t / 4 + seed) + 0.02 * random() + (Math.abs(t - 30 - 5 * seed) < 0.5 ? 0.2 : 0),
    );
    const largest = Math.max(...rms);
    return { run, channel: run.channels[0], times, rms, largest, largestAt: times[rms.indexOf(largest)] };
  });
  return { kind: 'running', set: 'foam', over: 1, entries };
}

export function madeShock(runs: readonly Run[]): ShockValue {
  const frequencies = Float64Array.from({ length: 97 }, (_, k) => 2 * 2 ** (k / 12));
  const entries = runs.map((run, seed) => {
    const of = (scale: number): Float64Array =>
      frequencies.map((f) => (scale * (1 + seed / 5) * (f / 40) ** 2) / Math.hypot(1 - (f / 60) ** 2, 0.4 + f / 200));
    const [maximax, residual] = [of(3), of(1.2)];
    return { run, channel: run.channels[0], frequencies, maximax, positive: maximax, negative: of(2), residual };
  });
  return { kind: 'shock', set: 'foam', damping: 0.05, entries };
}

export const madeProfile: ProfileValue = {
  kind: 'profile',
  unit: density,
  points: [
    { frequency: 5, density: 2e-4 },
    { frequency: 15, density: 4e-3 },
    { frequency: 50, density: 4e-3 },
    { frequency: 150, density: 1e-4 },
  ],
  rms: 0.52,
  rmsUnit: g,
};

export const madeRepeats: RepeatsValue = {
  kind: 'repeats',
  detect: 0.05,
  spread: 0.04,
  power: 0.8,
  confidence: 0.95,
  runs: 11,
  table: [
    [2, 20.2, 17.2],
    [3, 11.5, 9.1],
    [4, 9.1, 6.9],
    [5, 7.8, 5.8],
    [6, 7, 5.1],
    [8, 5.9, 4.3],
    [10, 5.2, 3.8],
    [11, 4.9, 3.6],
    [12, 4.7, 3.4],
  ].map(([runs, smallestPercent, halfWidthPercent]) => ({ runs, smallestPercent, halfWidthPercent })),
};

export function madeFindings(runs: readonly Run[]): FindingsValue {
  const finding = (
    code: string,
    severity: 'note' | 'warning' | 'fault',
    message: string,
    spans: { from: number; to: number }[],
  ): FindingsValue['rows'][number]['finding'] => ({ code, facts: {}, severity, message, channel: 'z', spans });
  return {
    kind: 'findings',
    rows: [
      { run: runs[0], finding: finding('offset', 'note', 'The mean is 1.00 g: gravity is in it.', []) },
      {
        run: runs[0],
        finding: finding(
          'spike',
          'warning',
          'Two samples stand far out at 25.3 and 61.0 s: look whether the logger was knocked.',
          [
            { from: 25.3, to: 25.3 },
            { from: 61, to: 61.01 },
          ],
        ),
      },
      {
        run: runs[1],
        finding: finding(
          'clipped',
          'fault',
          'From 40 to 44 s the signal stands at the end of its range: leave this run out, or use a larger range.',
          [{ from: 40, to: 44 }],
        ),
      },
    ],
  };
}

export function madeVerdict(comparison: ComparisonValue): VerdictValue {
  const row = comparison.rows[1];
  return {
    kind: 'verdict',
    verdict: 'not shown',
    claim: 'the gel pad gives at least 25 % less vibration in 30–50 Hz',
    source: 'maker’s leaflet',
    band: row.band,
    comparison,
    row,
    claimed: { from: undefined, to: 0.75 },
    reductionPercent: -row.changePercent,
    lowPercent: row.highPercent === undefined ? undefined : -row.highPercent,
    highPercent: row.lowPercent === undefined ? undefined : -row.lowPercent,
    powerReductionPercent: 100 * (1 - (1 + row.changePercent / 100) ** 2),
    sentence: 'In 30–50 Hz (z) r.m.s. changed by -23 %; the claim of at least 25 % less is not shown.',
    because: ['The interval reaches from smaller to larger reductions than the claim.'],
    untold: ['The interval reaches from smaller to larger reductions than the claim.'],
    settle: 'About 6 more runs of each would settle it if the true change is what was measured',
  };
}

/** Ratio of two made-up mean densities with an interval of about the right width. */
export function madeRatio(a: SpectrumValue, b: SpectrumValue): DensityRatio {
  const ratio = a.means[0].level.map((level, bin) => b.means[0].level[bin] / level);
  const wide = (bin: number): number => Math.exp(0.25 + 0.1 * Math.sin(bin));
  return {
    spacing: 0.5,
    ratio,
    low: ratio.map((value, bin) => value / wide(bin)),
    high: ratio.map((value, bin) => value * wide(bin)),
    confidence: 0.95,
  };
}

export const madeEarlier: EarlierValue = {
  kind: 'earlier',
  studies: [
    {
      name: 'spring ride',
      path: 'spring/ride.record.json',
      notebook: 'ride.washboard.md',
      tool: 'washboard 0.1.0',
      sources: [{ path: 'raw/a1.csv', sha256: '12'.repeat(32) }],
    },
  ],
  rows: [
    {
      study: 'spring ride',
      result: 'C',
      name: 'C.rows[10..50 Hz]',
      change: {
        ...{ baseline: 'foam', condition: 'gel', channel: 'z', metric: 'band r.m.s.', metricCode: 'rms' },
        band: { from: 10, to: 50 },
        primary: true,
        unit: g,
        ...{ a: 0.3, b: 0.27, changePercent: -10, changeDb: -0.91515, lowPercent: -14, highPercent: -5.8 },
        ...{ standardError: 0.018, df: 5.2, outcome: 'lower', confidence: 0.95, family: 1 },
        runs: ['a1', 'b1'],
        guards: [],
      },
    },
    { study: 'spring ride', result: 'L', name: 'L.rows[a1 z].rms', figure: { value: 0.31, unit: g } },
    { study: 'spring ride', result: 'V', name: 'V.verdict', figure: { value: 'not shown', unit: plainUnit } },
  ],
};

export const madePooled: PooledValue = {
  kind: 'pooled',
  studies: ['C', 'spring ride'],
  metric: 'band r.m.s.',
  metricCode: 'rms',
  confidence: 0.95,
  rows: [
    {
      band: { from: 10, to: 50 },
      ...{ baseline: 'foam', condition: 'gel', channel: 'z', primary: true, family: 1 },
      ...{ changePercent: -12, changeDb: -1.11, lowPercent: -15, highPercent: -8.9 },
      ...{ standardError: 0.014, df: 9.1, p: 0.0004, outcome: 'lower', sentence: 'Both pooled: lower.' },
      studies: [
        { name: 'C', changePercent: -14, lowPercent: -18, highPercent: -9, standardError: 0.02, df: 5 },
        { name: 'spring ride', changePercent: -10, lowPercent: -14, highPercent: -5.8, standardError: 0.018, df: 5.2 },
      ],
      guards: [],
    },
  ],
};

/** Two loggers side by side. */
export const madeLoggers = (left: Run, right: Run): LoggersValue => ({
  kind: 'loggers',
  a: { name: 'left', run: left },
  b: { name: 'right', run: right },
  clock: {
    ...{ late: 0.42, lateError: 0.0001, fast: 35e-6, fastError: 1e-6, df: 10, scatter: 0.0002 },
    ...{ stretches: 12, common: 58, channel: 'z' },
  },
  window: hann,
  confidence: 0.95,
  leastCoherence: 0.5,
  responses: madeTransfer(right).entries,
  rows: [
    {
      ...{ channel: 'z', unit: g, from: 5, to: 100, a: 0.2, b: 0.2036, ratio: 1.018, error: 0.001, df: 19 },
      ...{ low: 1.0159, high: 1.0201, coherence: 0.995, leastCoherence: 0.981 },
    },
  ],
  sentence: 'Both loggers read alike.',
});

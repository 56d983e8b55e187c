import type { ChartSubject, ChartValue } from '../../src/values/chart.ts';
import type { Value } from '../../src/values/value.ts';
import * as made from './madeUp.ts';
import * as more from './madeUpMore.ts';

/** A `plot` of values. */
export function plotOf(subjects: readonly ChartSubject['value'][], rest: Partial<ChartValue> = {}): ChartValue {
  return {
    kind: 'chart',
    subjects: subjects.map((value) => ({ name: undefined, value })),
    frequency: 'linear',
    marks: [],
    ...rest,
  };
}

const { foam, gel, foamSpectrum, gelSpectrum } = made;
export const comparison = made.madeComparison(foamSpectrum, gelSpectrum);

/** One value of every kind. */
export const everyValue: { readonly [K in Value['kind']]: Extract<Value, { kind: K }> } = {
  quantity: { kind: 'quantity', quantity: { value: 4.1234, unit: made.hertzUnit } },
  text: { kind: 'text', text: 'foam against gel' },
  runs: foam,
  window: made.hann,
  spectrum: foamSpectrum,
  levels: made.madeLevels(foam),
  bands: made.madeBands(foamSpectrum),
  comparison,
  verdict: more.madeVerdict(comparison),
  agreement: {
    kind: 'agreement',
    agrees: true,
    unit: made.hertzUnit,
    a: { name: 'predicted', value: 12.3, uncertainty: 0.21 },
    b: { name: 'measured', value: 12.1, uncertainty: undefined },
    difference: 0.2,
    uncertainty: 0.21,
    df: 12.5,
    confidence: 0.95,
    factor: 2.17,
    sentence: 'Both agree.',
  },
  calibration: {
    kind: 'calibration',
    unit: made.g,
    gravity: 1,
    positions: [{ run: foam.runs[0], along: '+z' }],
    rows: [
      {
        ...{ axis: 'z', offset: -0.01, sensitivity: 1.02, offsetUncertainty: 0.002, df: 4 },
        ...{ sensitivityUncertainty: 0.003, scatter: 0.005 },
      },
    ],
  },
  earlier: more.madeEarlier,
  pooled: more.madePooled,
  findings: more.madeFindings(foam.runs),
  peaks: more.madePeaks(foamSpectrum),
  transfer: more.madeTransfer(foam.runs[0]),
  loggers: more.madeLoggers(foam.runs[0], gel.runs[0]),
  spectrogram: more.madeSpectrogram(foam.runs[0]),
  running: more.madeRunning(foam.runs),
  shock: more.madeShock(foam.runs),
  profile: more.madeProfile,
  repeats: more.madeRepeats,
  order: { kind: 'order', scheme: 'abba', sequence: ['A', 'B', 'B', 'A'], leanPercent: 0 },
  sheet: {
    kind: 'sheet',
    file: 'runs.csv',
    columns: ['file', 'condition'],
    rows: [
      {
        file: 'raw/a1.csv',
        condition: 'foam',
        order: 1,
        excluded: true,
        why: 'stopped',
        facts: { file: 'raw/a1.csv', condition: 'foam' },
      },
    ],
  },
  plan: { kind: 'plan', entries: [{ word: 'band', text: '10..50 Hz' }], hash: 'ab'.repeat(32) },
  methods: {
    kind: 'methods',
    parts: [{ about: 'software', text: 'Computed with a program.' }],
    runs: foam.runs,
  },
  table: {
    kind: 'table',
    caption: 'Numbers',
    columns: [
      { name: 'Run', unit: '' },
      { name: 'R.m.s.', unit: 'g' },
    ],
    rows: [
      ['a1', 0.3],
      ['a2', null],
    ],
  },
  chart: plotOf([foamSpectrum, gelSpectrum, made.madeBands(foamSpectrum)], {
    marks: [{ at: 4.4, label: 'wheel turn' }],
  }),
};

/** `plot` of everything that has a picture. */
export const everyPlot: Readonly<Record<string, ChartValue>> = {
  runs: plotOf([foam, gel]),
  'runs over a stretch': plotOf([foam], { over: { from: 20, to: 30 }, marks: [{ at: 25, label: 'kerb' }] }),
  spectra: plotOf([foamSpectrum, gelSpectrum], { frequency: 'log', over: { from: 1, to: 150 } }),
  bands: plotOf([made.madeBands(foamSpectrum), made.madeBands(gelSpectrum)]),
  comparison: plotOf([comparison]),
  'a comparison beside an earlier study': plotOf([comparison, more.madeEarlier]),
  'earlier studies': plotOf([more.madeEarlier, more.madePooled]),
  levels: plotOf([made.madeLevels(foam), made.madeLevels(gel)]),
  running: plotOf([more.madeRunning(foam.runs)]),
  shock: plotOf([more.madeShock(foam.runs)], { over: { from: 5, to: 200 }, marks: [{ at: 20, label: 'bracket' }] }),
  peaks: plotOf([more.madePeaks(foamSpectrum)], { frequency: 'log' }),
  transfer: plotOf([more.madeTransfer(foam.runs[0])], { frequency: 'log', marks: [{ at: 22, label: '' }] }),
  spectrogram: plotOf([more.madeSpectrogram(foam.runs[0])], { frequency: 'log' }),
  profile: plotOf([more.madeProfile]),
  'profile and spectrum': plotOf([foamSpectrum, more.madeProfile]),
  verdict: plotOf([more.madeVerdict(comparison)]),
  repeats: plotOf([more.madeRepeats]),
};

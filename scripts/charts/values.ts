import type { ChartPart } from '../../src/charts/output.ts';
import { present } from '../../src/charts/present.ts';
import type { ChartSubject, ChartValue } from '../../src/values/chart.ts';
import type { Value } from '../../src/values/value.ts';
import * as made from '../../test/charts/madeUp.ts';
import * as more from '../../test/charts/madeUpMore.ts';

const plot = (subjects: readonly ChartSubject['value'][], rest: Partial<ChartValue> = {}): ChartValue => ({
  kind: 'chart',
  subjects: subjects.map((value) => ({ name: undefined, value })),
  frequency: 'linear',
  marks: [],
  ...rest,
});

const thirds = [...Array(22).keys()].map((index) => {
  const centre = 10 ** ((index + 1) / 10);
  return { from: centre * 10 ** -0.05, to: centre * 10 ** 0.05, label: String(Number(centre.toPrecision(3))) };
});

const values = (): Record<string, Value> => {
  const { foam, gel, foamSpectrum, gelSpectrum } = made;
  const axes = made.madeRuns('three axes', 'c', 2, 1, ['x', 'y', 'z']);
  const axesSpectrum = made.madeSpectrum({ set: 'three axes', runs: axes.runs, shift: 1, damp: 1, seed: 9 });
  const comparison = made.madeComparison(foamSpectrum, gelSpectrum);
  return {
    overlay: plot([foamSpectrum, gelSpectrum, made.madeBands(foamSpectrum)], {
      over: { from: 1, to: 150 },
      marks: [
        { at: 4.4, label: 'wheel turn' },
        { at: 8.8, label: 'twice' },
      ],
    }),
    'overlay-log': plot([foamSpectrum, gelSpectrum, made.madeBands(foamSpectrum)], {
      over: { from: 1, to: 150 },
      frequency: 'log',
    }),
    'overlay-axes': axesSpectrum,
    trace: plot([{ ...foam, runs: foam.runs.slice(0, 1) }], { marks: [{ at: 33, label: 'kerb' }] }),
    traces: plot([foam, gel]),
    'traces-axes': plot([axes]),
    bands: plot([made.madeBands(foamSpectrum), made.madeBands(gelSpectrum)]),
    thirds: plot([made.madeBands(foamSpectrum, thirds), made.madeBands(gelSpectrum, thirds)]),
    comparison,
    ratio: { ...comparison, ratio: more.madeRatio(foamSpectrum, gelSpectrum) },
    'comparison-margin': { ...comparison, margin: 0.1, a: { ...comparison.a, spectrum: undefined } },
    cumulative: foamSpectrum,
    peaks: more.madePeaks(foamSpectrum),
    transfer: more.madeTransfer(foam.runs[0]),
    spectrogram: more.madeSpectrogram(foam.runs[0]),
    'spectrogram-log': plot([more.madeSpectrogram(foam.runs[0])], { frequency: 'log', over: { from: 2, to: 150 } }),
    running: more.madeRunning(foam.runs),
    profile: more.madeProfile,
    'profile-overlay': plot([foamSpectrum, more.madeProfile]),
    repeats: more.madeRepeats,
    findings: more.madeFindings(foam.runs),
    verdict: more.madeVerdict(comparison),
    levels: plot([made.madeLevels(foam), made.madeLevels(gel)]),
  };
};

/** Every chart, by a name that can stand in a file's. */
export function gallery(): { name: string; chart: ChartPart }[] {
  return Object.entries(values()).flatMap(([name, value]) =>
    present(value, name, []).parts.flatMap((part, index) =>
      part.type === 'chart' ? [{ name: `${name}-${index}`, chart: part }] : [],
    ),
  );
}

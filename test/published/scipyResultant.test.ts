import { weighted } from '../../src/analysis/conditioning/weight.ts';
import { integrated } from '../../src/analysis/conditioning/integrate.ts';
import { resultants } from '../../src/analysis/recordings/resultant.ts';
import { bandLevels } from '../../src/analysis/spectra/bands.ts';
import { levelsOf } from '../../src/analysis/spectra/levels.ts';
import { spectrumOf } from '../../src/analysis/spectra/spectrum.ts';
import type { Result } from '../../src/result/result.ts';
import { unit } from '../../src/units/parse.ts';
import type { LevelsRow } from '../../src/values/levels.ts';
import type { RunsValue } from '../../src/values/runs.ts';
import { close, near, record, vectors } from './vectors.ts';

type Figure = 'mean' | 'rms' | 'totalRms' | 'peak' | 'crestFactor' | 'percentile99' | 'percentile999' | 'mtvv';

interface Case {
  name: string;
  /** Frequency in Hz, amplitude and offset of each axis, in g. */
  sines?: [number, number, number][];
  noise?: { seeds: number[]; offsets: number[] };
  rate: number;
  count: number;
  segment: number;
  levels: Record<Figure, number>;
  density: number[];
  /** Edges in Hz, and the r.m.s. between them. */
  bands: [number, number, number][];
  /** R.m.s. by Wd, Wd and Wk; and of the velocity in m/s above 2 Hz. */
  weighted: number;
  velocity: number;
}

const watch = { cancelled: () => false, progress: () => undefined };

function given<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.failure.message);
  return result.value;
}

function axesOf({ sines, noise, rate, count }: Case): Float64Array[] {
  if (noise !== undefined) return noise.seeds.map((seed, axis) => record(seed, count, noise.offsets[axis]));
  return (sines ?? []).map(([frequency, amplitude, offset]) =>
    Float64Array.from({ length: count }, (_, i) => offset + amplitude * Math.sin((2 * Math.PI * frequency * i) / rate)),
  );
}

function runOf(made: Case): RunsValue {
  const channels = axesOf(made).map((samples, axis) => ({
    name: ['x', 'y', 'z'][axis],
    unit: unit('g'),
    unitFrom: 'the header',
    samples,
    includesStatic: true,
  }));
  const run = {
    label: made.name,
    file: { path: 'a.csv', bytes: 0, sha256: '' },
    rate: made.rate,
    channels,
    stretches: [{ from: 0, to: made.count, start: 0 }],
    start: 0,
    history: [],
    findings: [],
    layout: { format: 'delimited text', rows: made.count },
  };
  return { kind: 'runs', set: undefined, runs: [run] };
}

// Source: numpy and scipy, through vectors that name their versions (scripts/reference/makeResultantVectors.py).
describe('scipy: the resultant', () => {
  for (const made of vectors<Case>('resultant')) {
    const vector = given(resultants(runOf(made)));
    const level = (of: RunsValue): LevelsRow => given(levelsOf(of, watch)).rows[0];

    it(`of ${made.name} has the levels of numpy's vectors`, () => {
      const found = level(vector);
      for (const [figure, expected] of Object.entries(made.levels))
        close(found[figure as Figure] ?? NaN, expected, 1e-11, figure);
    });

    it(`of ${made.name} has the trace of scipy.signal.csd as its density, and the bands of that`, () => {
      const window = { kind: 'window', shape: 'hann', length: made.segment / made.rate, overlap: 0.5 } as const;
      const spectrum = given(spectrumOf(vector, { window }, watch));
      near(spectrum.entries[0].density, made.density, 1e-12);
      near(spectrum.means[0].level, made.density, 1e-12);
      const bands = made.bands.map(([from, to]) => ({ from, to }));
      given(bandLevels(spectrum, undefined, bands)).rows.forEach(({ rms }, band) => {
        const [from, to, expected] = made.bands[band];
        close(rms + made.levels.rms, expected + made.levels.rms, 1e-12, `${from} to ${to} Hz`);
      });
    });

    it(`of ${made.name} is weighted and integrated axis by axis, as numpy's transforms are`, () => {
      close(level(given(weighted(vector, ['wd', 'wd', 'wk'], watch))).rms, made.weighted, 1e-10, 'weighted');
      close(level(given(integrated(vector, 'velocity', 2, watch))).rms, made.velocity, 1e-10, 'velocity');
    });
  }
});

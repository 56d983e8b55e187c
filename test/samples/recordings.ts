import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { welchDensity, type Density } from '../../src/signal/welch.ts';
import { windowShape } from '../../src/signal/windows.ts';

export const rawFolder = fileURLToPath(new URL('../../samples/raw/', import.meta.url));

/** A recording of the sample, read without the readers that the notebooks use. */
export interface SampleRecording {
  readonly t: Float64Array;
  readonly axes: readonly Float64Array[];
  /** Hz, from the first and the last stamp. */
  readonly rate: number;
}

export const textOf = (path: string): string => {
  const bytes = readFileSync(path);
  return (path.endsWith('.gz') ? gunzipSync(bytes) : bytes).toString('utf8');
};

const read = new Map<string, SampleRecording>();

export function recording(file: string): SampleRecording {
  const known = read.get(file);
  if (known) return known;
  const lines = textOf(rawFolder + file).trimEnd().split('\n').slice(1);
  const columns = [0, 1, 2, 3].map(() => new Float64Array(lines.length));
  lines.forEach((line, n) => line.split(',').forEach((cell, k) => (columns[k][n] = Number(cell))));
  const [t, ...axes] = columns;
  const made = { t, axes, rate: (t.length - 1) / (t[t.length - 1] - t[0]) };
  read.set(file, made);
  return made;
}

/** The samples from `from` to before `to`, in s. */
export const stretch = ({ t, axes }: SampleRecording, axis: number, from: number, to: number): Float64Array =>
  axes[axis].filter((_, n) => t[n] >= from && t[n] < to);

export const mean = (values: Float64Array | readonly number[]): number => {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
};

export const deviation = (values: Float64Array | readonly number[]): number => {
  const centre = mean(values);
  let sum = 0;
  for (const value of values) sum += (value - centre) ** 2;
  return Math.sqrt(sum / (values.length - 1));
};

/** Hann, 2 s, half overlapping. */
export const densityOf = (samples: Float64Array, rate: number): Density =>
  welchDensity([samples], { rate, shape: windowShape('hann', Math.round(2 * rate)), overlap: 0.5 });

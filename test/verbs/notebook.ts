import { strict as assert } from 'node:assert';
import { Engine } from '../../src/engine/engine.ts';
import type { StatementResult } from '../../src/engine/result.ts';
import type { Value, ValueOf } from '../../src/values/value.ts';
import { MemoryHost, quietWatch } from '../engine/memoryFiles.ts';

/** A recording as delimited text: one column a signal, each a function of the time in s. */
export function recordingOf(
  signals: Readonly<Record<string, (t: number, i: number) => number>>,
  { rate = 200, seconds = 20, times }: { rate?: number; seconds?: number; times?: readonly number[] } = {},
): string {
  const at = times ?? Array.from({ length: Math.round(rate * seconds) }, (_, i) => i / rate);
  const rows = at.map((t, i) => [t.toFixed(6), ...Object.values(signals).map((of) => of(t, i).toFixed(9))].join(','));
  return [['t (s)', ...Object.keys(signals)].join(','), ...rows].join('\n') + '\n';
}

export const sine =
  (frequency: number, amplitude = 1, offset = 0) =>
  (t: number): number =>
    offset + amplitude * Math.sin(2 * Math.PI * frequency * t);

/** Numbers from 0 to 1 of a fixed seed. */
export function uniform(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
}

/** Gaussian numbers of a fixed seed. */
export function noise(seed: number): () => number {
  const random = uniform(seed);
  return () => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());
}

/** The last statement's result of one cell over files in memory. */
export async function resultOf(text: string, files: Readonly<Record<string, string>> = {}): Promise<StatementResult> {
  const report = await new Engine(new MemoryHost({ ...files })).run({ cells: [text], wanted: 'all' }, quietWatch);
  return report.results.at(-1) ?? assert.fail('no statement');
}

/** Its value, which must be of this kind. */
export async function valueOf<K extends Value['kind']>(
  kind: K,
  text: string,
  files: Readonly<Record<string, string>>,
): Promise<ValueOf<K>> {
  const { value, error } = await resultOf(text, files);
  assert.equal(error?.message, undefined);
  assert.equal(value?.kind, kind);
  return value as ValueOf<K>;
}

/** The code and the sentence of its error. */
export async function errorOf(
  text: string,
  files: Readonly<Record<string, string>> = {},
): Promise<{ readonly code: string; readonly message: string }> {
  const { error } = await resultOf(text, files);
  return error ?? assert.fail(`no error: ${text}`);
}

/** Codes of the verb's own warnings: not of the recording's faults, which travel with every result. */
export async function warningsOf(text: string, files: Readonly<Record<string, string>>): Promise<string[]> {
  const { warnings, error } = await resultOf(text, files);
  assert.equal(error?.message, undefined);
  return ownCodes(warnings);
}

export function rmsOf(samples: ArrayLike<number>, from = 0, to = samples.length): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += samples[i] ** 2;
  return Math.sqrt(sum / (to - from));
}

export const near = (actual: number, expected: number, relative: number): void =>
  assert.ok(
    Math.abs(actual - expected) <= relative * Math.abs(expected),
    `${actual} is not within ${relative} of ${expected}`,
  );

export const ownCodes = (warnings: readonly { readonly code: string }[]): string[] =>
  warnings.map(({ code }) => code).filter((code) => !code.startsWith('fault.'));

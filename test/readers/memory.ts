import { strict as assert } from 'node:assert';
import type { Failure } from '../../src/result/result.ts';
import type { ByteSource, Finding, ReadOptions, Recording } from '../../src/readers/recording.ts';
import { read } from '../../src/readers/read.ts';

/** A file in memory, given as text or bytes. */
export function source(content: string | Uint8Array, path = 'run.csv'): ByteSource {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  return {
    path,
    size: bytes.length,
    read: (position, length) => Promise.resolve(bytes.slice(position, position + length)),
  };
}

/** Reads a file that must be readable. */
export async function recordingOf(content: string | Uint8Array, options: ReadOptions = {}): Promise<Recording> {
  const result = await read(source(content), options);
  assert.ok(result.ok, result.ok ? '' : result.failure.message);
  return result.value;
}

/** Reads a file that must be refused; the refusal is one sentence without a line break. */
export async function refusalOf(content: string | Uint8Array, options: ReadOptions = {}): Promise<Failure> {
  const result = await read(source(content), options);
  assert.ok(!result.ok, 'the file was read');
  assert.match(result.failure.message, /^run\.csv[^\n]*\.$/);
  return result.failure;
}

export const samplesOf = (recording: Recording, name: string): number[] => {
  const channel = recording.channels.find((one) => one.name === name);
  assert.ok(channel, `no channel ${name} among ${recording.channels.map((one) => one.name).join(' ')}`);
  return [...channel.samples];
};

export const findingOf = (recording: Recording, code: string): Finding | undefined =>
  recording.findings.find((one) => one.code === code);

/** Rows of text from a function of the row's number. */
export function rows(
  count: number,
  row: (i: number) => readonly (string | number)[],
  delimiter = ',',
  end = '\n',
): string {
  return Array.from({ length: count }, (_, i) => row(i).join(delimiter) + end).join('');
}

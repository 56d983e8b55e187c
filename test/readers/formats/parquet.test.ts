import { strict as assert } from 'node:assert';
import type { ByteSource } from '../../../src/readers/recording.ts';
import { findChannels } from '../../../src/readers/channels.ts';
import { leftOutFor } from '../../../src/readers/messages/leftOut.ts';
import { read } from '../../../src/readers/read.ts';
import { parquet, type ParquetColumn } from '../fixtures/parquet.ts';
import { recordingOf, refusalOf, samplesOf } from '../memory.ts';

const count = 500;
const z = Array.from({ length: count }, (_, i) => 1 + 0.1 * Math.sin(i));
const axes: ParquetColumn[] = [
  { name: 'x', type: 'DOUBLE', values: z.map((_, i) => 0.01 * (i % 7)) },
  { name: 'y', type: 'DOUBLE', values: z.map((_, i) => 0.02 * (i % 3)) },
  { name: 'z', type: 'DOUBLE', values: z },
];
const seconds: ParquetColumn = { name: 't (s)', type: 'DOUBLE', values: z.map((_, i) => i / 100) };

/** A source that gives the same buffer again at every read, and late, as one on a disk may. */
function sharing(bytes: Uint8Array): ByteSource {
  let buffer = new Uint8Array(0);
  return {
    path: 'run.parquet',
    size: bytes.length,
    async read(position, length) {
      if (buffer.length < length) buffer = new Uint8Array(length);
      await new Promise((done) => setImmediate(done));
      const part = bytes.subarray(position, position + length);
      buffer.set(part);
      return buffer.subarray(0, part.length);
    },
  };
}

describe('Parquet files', () => {
  it('keep their rows in order over many row groups, from a source that uses one buffer for every read', async () => {
    const result = await read(sharing(parquet([seconds, ...axes], true, 64)));
    assert.ok(result.ok, result.ok ? '' : result.failure.message);
    assert.deepEqual(samplesOf(result.value, 'z'), z);
    assert.equal(result.value.clock.rate, 100);
  });

  it('of nested columns alone say so, and ask for no delimiter', async () => {
    const column = { kind: 'other', header: 'acc', why: leftOutFor('column.nested', {}) } as const;
    const result = findChannels(
      'a.parquet',
      { columns: [column], rows: 9, named: true, lineOf: () => undefined },
      [],
      undefined,
      {},
    );
    assert.ok(!result.ok);
    assert.equal(
      result.failure.message,
      'a.parquet: besides the time there is no column of numbers; left out is "acc", because it is nested: write each reading into a column of plain numbers.',
    );
  });

  it('are read no further once that is given up', async () => {
    for (const after of [0, 1]) {
      const shares: number[] = [];
      const watch = { cancelled: () => shares.length >= after, progress: (share: number) => void shares.push(share) };
      const found = await read(sharing(parquet([seconds, ...axes], true, 64)), {}, watch);
      assert.equal(found.ok ? '' : found.failure.code, 'cancelled');
      assert.equal(shares.length, after);
    }
  });

  it('are held to the checksums of their pages, of which a wrong one is told with its column and its group', async () => {
    const file = parquet([seconds, ...axes], false, 250, count, true);
    assert.deepEqual(samplesOf(await recordingOf(file), 'z'), z);
    const plain = parquet([seconds, ...axes], false, 250);
    const bytes = Buffer.from(new Float64Array([z[399]]).buffer);
    for (const packed of [false, true]) {
      const summed = parquet([seconds, ...axes], packed, 250, count, true);
      const at = Buffer.from(summed).indexOf(bytes);
      assert.ok(at > 0, 'a sample is found in the file');
      summed[at] ^= 1;
      const { code, message } = await refusalOf(summed);
      assert.equal(code, 'damaged-page');
      assert.equal(
        message,
        'run.csv: page 1 of the column "z" in row group 2 does not match its checksum, so its bytes changed after they were written: copy the file again, or export it anew.',
      );
    }
    // Of several damaged pages the first is told.
    for (const sample of [10, 399])
      file[Buffer.from(file).indexOf(Buffer.from(new Float64Array([z[sample]]).buffer))] ^= 1;
    const found = await read(sharing(file));
    assert.match(found.ok ? '' : found.failure.message, /^run\.parquet: page 1 of the column "z" in row group 1 /);
    plain[Buffer.from(plain).indexOf(bytes)] ^= 1;
    assert.notDeepEqual(samplesOf(await recordingOf(plain), 'z'), z);
  });

  it('keep columns of one name apart', async () => {
    const named = (name: string, values: readonly number[]): ParquetColumn => ({ name, type: 'DOUBLE', values });
    const other = z.map((value) => value / 3);
    const file = parquet([seconds, named('z (g)', z), named('z (g)', other)], false, 64);
    const recording = await recordingOf(file);
    assert.deepEqual(
      recording.channels.map(({ name, header }) => [name, header]),
      [
        ['z', 'z (g)'],
        ['z 2', 'z (g)'],
      ],
    );
    assert.deepEqual(samplesOf(recording, 'z'), z);
    assert.deepEqual(samplesOf(recording, 'z 2'), other);
  });

  it('that are encrypted are named so', async () => {
    const failure = await refusalOf(Uint8Array.from([...new TextEncoder().encode('PARE'), ...new Uint8Array(64)]));
    assert.match(
      failure.message,
      /this is an encrypted Parquet file, which can't be read: write it without encryption/,
    );
  });

  it('may hold stamps and numbers as texts', async () => {
    const start = Date.UTC(2025, 2, 7, 14, 22, 31, 500);
    const time: ParquetColumn = {
      name: 'time',
      type: 'UTF8',
      values: z.map((_, i) => new Date(start + 10 * i).toISOString()),
    };
    const spelt = axes.map((axis): ParquetColumn => ({ ...axis, type: 'UTF8', values: axis.values.map(String) }));
    const recording = await recordingOf(parquet([time, ...spelt], false));
    assert.deepEqual(samplesOf(recording, 'z'), z);
    assert.equal(recording.clock.rate, 100);
    assert.equal(recording.clock.epoch, start / 1000);
  });

  it('that state more rows than they hold, or than their size can, are refused before memory is taken', async () => {
    const before = process.memoryUsage().arrayBuffers;
    for (const [stated, why] of [
      [501, /damaged/],
      [90_000_000, /grows to more than/],
      [9_000_000_000, /more than 400 million values/],
    ] as const) {
      const result = await read(sharing(parquet([seconds, ...axes], false, undefined, stated)));
      assert.ok(!result.ok);
      assert.match(result.failure.message, why);
    }
    assert.ok(process.memoryUsage().arrayBuffers - before < 64e6);
  });
});

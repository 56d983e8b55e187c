import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  appendFileSync,
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { diskHost } from '../../src/disk/host.ts';
import { readRecording } from '../../src/disk/readRecording.ts';
import { ReadingThreads } from '../../src/disk/readingThreads.ts';
import { beginWorker, startedWorker } from '../../src/disk/readingWorkers.ts';
import { Engine } from '../../src/engine/engine.ts';
import { reportJson } from '../../src/engine/json.ts';
import { unwatched } from '../../src/readers/read.ts';
import { recording, quietWatch } from '../engine/memoryFiles.ts';
import { readingProgram } from './threads.ts';

const fixtures = fileURLToPath(new URL('../readers/fixtures', import.meta.url));
const taskOf = (absolute: string): Parameters<typeof readRecording>[0] => ({
  absolute,
  path: 'run.csv',
  options: {},
  channels: [],
});
const cells = [
  'a = load "raw/a-*.csv" channel z label "a" | trim 2..60 s\nb = load "raw/b-*.csv" channel z label "b" | trim 2..60 s\nbroken = load "raw/*.txt"',
  'compare a with b over 4..10 Hz, 10..50 Hz\nspectrum a',
];

/** A watch that does something once, as soon as it is told of progress. */
function during(once: () => void): typeof unwatched {
  let isDone = false;
  return {
    ...unwatched,
    progress: () => {
      if (!isDone) once();
      isDone = true;
    },
  };
}

/** A recording's bytes in a format; that of the name alone. */
function bytesOf(format: string, text: string): Uint8Array | string {
  if (format.endsWith('gz')) return gzipSync(text);
  if (format.endsWith('parquet')) return readFileSync(join(fixtures, '22a-plain.parquet'));
  return format.endsWith('wav') ? readFileSync(join(fixtures, '19a-counts.wav')) : text;
}

describe('threads that read recordings', () => {
  let program: string;
  let folder: string;
  before(async () => {
    program = await readingProgram();
    folder = mkdtempSync(join(tmpdir(), 'washboard-read-'));
    mkdirSync(join(folder, 'raw'));
    for (let run = 0; run < 8; run++) {
      const text = recording({ seconds: 100, rate: 250, level: run % 2 === 0 ? 0.3 : 0.4, seed: run + 1 });
      writeFileSync(join(folder, 'raw', `${run % 2 === 0 ? 'a' : 'b'}-${run}.csv`), text);
    }
    writeFileSync(join(folder, 'raw', 'none.txt'), 'no table\n');
  });
  after(() => {
    rmSync(folder, { recursive: true });
    rmSync(dirname(program), { recursive: true });
  });

  const resultsOf = async (threads: ReadingThreads | undefined): Promise<string> => {
    const report = await new Engine(diskHost(folder, folder, { threads })).run({ cells, wanted: 'all' }, quietWatch);
    await threads?.dispose();
    return JSON.stringify(reportJson('study', [{ line: 1 }, { line: 9 }], report));
  };

  it('give the same study for any number of them, to the byte', async () => {
    const alone = await resultsOf(undefined);
    assert.match(alone, /"outcome"/);
    assert.match(alone, /no-table/);
    for (const count of [1, 2, 4]) assert.equal(await resultsOf(new ReadingThreads(program, count)), alone);
  });

  it('give the same study where they were begun before, and where those can’t be had', async () => {
    const alone = await resultsOf(undefined);
    beginWorker(program);
    beginWorker(program);
    const [one, other] = [startedWorker(program), startedWorker(program)];
    await Promise.all([one.terminate(), other.terminate()]);
    for (const begun of [1, 3]) {
      for (let i = 0; i < begun; i++) beginWorker(program);
      assert.equal(await resultsOf(new ReadingThreads(program, 2)), alone);
    }
    const gone = join(folder, 'no program.mjs');
    beginWorker(gone);
    await setTimeout(500);
    assert.equal(await resultsOf(new ReadingThreads(program, 2)), alone);
    await assert.rejects(new ReadingThreads(gone, 2).read(taskOf('x'), unwatched), /no program/);
    await startedWorker(program).terminate();
  });

  it('let a process end that begun some and asked nothing of them', () => {
    const workers = new URL('../../src/disk/readingWorkers.ts', import.meta.url).href;
    const text = `import { beginWorker } from ${JSON.stringify(workers)}; beginWorker(${JSON.stringify(program)});`;
    const { status, signal, stderr } = spawnSync(
      process.execPath,
      ['--import', 'tsx', '--input-type=module', '--eval', text],
      { timeout: 60_000, encoding: 'utf8' },
    );
    assert.deepEqual({ status, signal, stderr }, { status: 0, signal: null, stderr: '' });
  });

  it('read every format as this thread does, and refuse what it refuses', async () => {
    const threads = new ReadingThreads(program, 2);
    for (const name of readdirSync(fixtures).filter((one) => /^\d/.test(one))) {
      const task = taskOf(join(fixtures, name));
      assert.deepEqual(await threads.read(task, unwatched), await readRecording(task, unwatched), name);
    }
    await threads.dispose();
  });

  it('give of many that wait what each by itself gives, of those too that wait for a thread that fails or dies', async () => {
    const names = readdirSync(fixtures)
      .filter((one) => /^\d/.test(one))
      .slice(0, 60);
    const alone = await Promise.all(names.map((name) => readRecording(taskOf(join(fixtures, name)), unwatched)));
    const threads = new ReadingThreads(program, 2);
    const bad = { ...taskOf('x'), absolute: undefined as unknown as string };
    const asked = names.map((name, i) => ({
      failing: i % 20 === 0 ? threads.read(bad, unwatched).catch(() => 'failed') : undefined,
      reading: threads.read(taskOf(join(fixtures, name)), unwatched),
    }));
    for (const [i, { failing, reading }] of asked.entries()) {
      assert.deepEqual(await reading, alone[i], names[i]);
      assert.equal(await failing, failing && 'failed');
    }
    const all = names.map((name) => threads.read(taskOf(join(fixtures, name)), unwatched));
    const settling = Promise.allSettled(all);
    await threads.dispose();
    const kept = (await settling).flatMap((one, i) => (one.status === 'fulfilled' ? [[one.value, alone[i]]] : []));
    assert.ok(kept.length >= names.length - 2, 'what was not begun is read by others');
    for (const [read, wanted] of kept) assert.deepEqual(read, wanted);
    await threads.dispose();
  });

  it('are started anew where one has died, and what it was asked for fails', async () => {
    const threads = new ReadingThreads(program, 1);
    const failing = threads.read({ ...taskOf('x'), absolute: undefined as unknown as string }, unwatched);
    await assert.rejects(failing);
    const dying = threads.read(taskOf(join(folder, 'raw', 'a-0.csv')), unwatched);
    await threads.dispose();
    await assert.rejects(dying, /ended/);
    const read = await threads.read(taskOf(join(folder, 'raw', 'a-0.csv')), unwatched);
    assert.ok(read.recording.ok);
    await threads.dispose();
  });

  it('read no further where nobody waits any more', async () => {
    const threads = new ReadingThreads(program, 1);
    const task = taskOf(join(folder, 'raw', 'a-0.csv'));
    const { recording: read } = await threads.read(task, { ...unwatched, cancelled: () => true });
    assert.equal(!read.ok && read.failure.code, 'cancelled');
    await threads.dispose();
  });
});

describe('a recording that is read in one go', () => {
  let folder: string;
  before(() => {
    folder = mkdtempSync(join(tmpdir(), 'washboard-read-'));
  });
  after(() => rmSync(folder, { recursive: true }));

  it('is known by the hash of all its bytes, whatever was asked of it and however it ends', async () => {
    const path = join(folder, 'run.csv');
    for (const text of [recording({ seconds: 20 }), 'nothing\n', `${recording({ seconds: 3 })}\0\0\0`]) {
      writeFileSync(path, text);
      const { identity } = await readRecording(taskOf(path), unwatched);
      assert.deepEqual(identity, { bytes: text.length, sha256: createHash('sha256').update(text).digest('hex') });
    }
    const parquet = join(fixtures, '22a-plain.parquet');
    const { identity } = await readRecording(taskOf(parquet), unwatched);
    assert.equal(identity?.sha256, createHash('sha256').update(readFileSync(parquet)).digest('hex'));
  });

  it('keeps the samples of the channels that are taken, with their step, and the names of all', async () => {
    const path = join(folder, 'run.csv');
    writeFileSync(path, recording({ seconds: 20 }));
    const { recording: read } = await readRecording({ ...taskOf(path), channels: ['z'] }, unwatched);
    assert.ok(read.ok);
    const lengths = read.value.channels.map(({ name, samples, step }) => [name, samples.length, step !== undefined]);
    assert.deepEqual(lengths, [
      ['x', 0, false],
      ['y', 0, false],
      ['z', 4000, true],
    ]);
  });

  it('is refused where its bytes are not those that were told of', async () => {
    const path = join(folder, 'run.csv');
    writeFileSync(path, recording({ seconds: 20 }));
    const { identity } = await readRecording(taskOf(path), unwatched);
    writeFileSync(path, recording({ seconds: 20, seed: 2 }));
    const { recording: read } = await readRecording({ ...taskOf(path), identity }, unwatched);
    assert.equal(!read.ok && read.failure.code, 'file-changed');
  });

  it('is refused where it is written while it is read, whatever was read of it by then', async () => {
    const path = join(folder, 'run.csv');
    const text = recording({ seconds: 20 });
    const writings: Record<string, () => void> = {
      'more lines': () => appendFileSync(path, '1,2,3,4\n'),
      'the same length again': () => writeFileSync(path, text.replaceAll('0', '1')),
      'another one in its place': () => {
        writeFileSync(`${path}.new`, recording({ seconds: 20, seed: 2 }));
        renameSync(`${path}.new`, path);
      },
      'fewer bytes': () => truncateSync(path, 10),
      none: () => truncateSync(path, 0),
      'and its time put back': () => {
        writeFileSync(path, text.replaceAll('0', '1'));
        utimesSync(path, 1, 1);
      },
    };
    for (const format of ['run.csv', 'run.csv.gz', 'run.parquet', 'run.wav']) {
      for (const [what, write] of Object.entries(writings)) {
        writeFileSync(path, bytesOf(format, text));
        utimesSync(path, 1, 1);
        const { recording: read, stamp } = await readRecording(taskOf(path), during(write));
        assert.equal(!read.ok && read.failure.code, 'file-changed', `${format}, ${what}`);
        assert.equal(stamp, undefined);
      }
    }
  });

  it('is read though its rights change meanwhile', async () => {
    const path = join(folder, 'run.csv');
    writeFileSync(path, recording({ seconds: 20 }));
    const { recording: read, stamp } = await readRecording(
      taskOf(path),
      during(() => chmodSync(path, 0o600)),
    );
    assert.ok(read.ok);
    assert.equal(stamp, undefined, 'what it is known by is not what it was known by before');
  });

  it('is read once for its hash and its samples, and not at all while size and time tell that it is the same', async () => {
    const path = join(folder, 'run.csv');
    writeFileSync(path, recording({ seconds: 20 }));
    const { files } = diskHost(folder, folder);
    assert.equal(await files.known?.('run.csv'), undefined);
    const [read] = files.read?.([{ path: 'run.csv', options: {}, channels: [] }], quietWatch) ?? [];
    const { identity } = await read;
    assert.deepEqual(await files.known?.('run.csv'), identity);
    utimesSync(path, 1, 1);
    assert.equal(await files.known?.('run.csv'), undefined);
    assert.deepEqual(await files.identify('run.csv'), identity);
    // Held to its hash in blocks, which the reading did not make.
    const opened = await files.open('run.csv', identity);
    assert.equal((await opened.read(0, 10)).length, 10);
  });
});

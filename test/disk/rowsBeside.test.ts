import { strict as assert } from 'node:assert';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { Identities } from '../../src/disk/identities.ts';
import { readerIn } from '../../src/disk/readAll.ts';
import { ReadingThreads } from '../../src/disk/readingThreads.ts';
import { limits } from '../../src/readers/limits.ts';
import { read, unwatched } from '../../src/readers/read.ts';
import type { ReadWatch } from '../../src/readers/recording.ts';
import { RowsBeside, type StartBeside } from '../../src/readers/text/rowsBeside.ts';
import { quietWatch } from '../engine/memoryFiles.ts';
import { readingProgram } from './threads.ts';

/** What is read of a text whose bytes come in pieces of this size behind the head. */
async function readIn(text: string, size: number, watch: ReadWatch): Promise<string> {
  const bytes = new TextEncoder().encode(text);
  const pieceAt = (at: number, length: number): Uint8Array =>
    bytes.slice(at, at + (at > limits.head ? Math.min(length, size) : length));
  const read1 = async (at: number, length: number): Promise<Uint8Array> => {
    // Gives the other thread its turn.
    await new Promise((done) => setImmediate(done));
    return pieceAt(at, at === 0 ? limits.head + 1 : length);
  };
  const found = await read({ path: 'run.csv', size: bytes.length, read: read1 }, {}, watch);
  return JSON.stringify(found, (_, value: unknown) =>
    value instanceof Float64Array ? Array.from(new BigUint64Array(value.slice().buffer), String) : value,
  );
}

/** Rows of two readings behind their time, some with what no vectors read, a blank line, zeros, rows parted by a return or a cell that is empty. */
function textOf(stamped: boolean, faults: readonly (readonly [number, string])[], rows: number): string {
  const odd = new Map(faults.map(([at, what]) => [at % rows, what]));
  const start = Date.UTC(2024, 1, 28, 23, 58);
  const lines = ['time,x (g),y (g)'];
  for (let i = 0; i < rows; i++) {
    const time = stamped ? new Date(start + 5 * i).toISOString() : (i / 200).toFixed(3);
    const what = odd.get(i);
    const x = ((i * 7919) % 10_007) / 5000 - 1;
    if (what === 'word') lines.push('no row at all');
    else if (what === 'header') lines.push(lines[0]);
    else if (what === 'blank') lines.push('');
    else if (what === 'zeros') lines.push('\0'.repeat(3000));
    else if (what === 'return') lines.push(`${time},7,8\r${time},9,10`);
    lines.push(
      `${time},${what === 'empty' ? '' : x.toFixed(4)},${what === 'long' ? `0.${'3'.repeat(25)}` : x.toExponential(5)}`,
    );
  }
  return `${lines.join('\n')}${odd.has(0) ? '\n1.25,0.' : '\n'}`;
}

describe('rows that another thread reads', () => {
  let program: string;
  let threads: ReadingThreads;
  before(async () => {
    program = await readingProgram();
    threads = new ReadingThreads(program, 2);
  });
  after(async () => {
    await threads.dispose();
    rmSync(dirname(program), { recursive: true });
  });

  /** Starts the other thread, and counts the pieces that it reads. */
  const counting = (counts: { there: number; here: number }): StartBeside => {
    return (plan, capacity) => {
      const beside = threads.beside(plan, capacity);
      if (beside === undefined) return undefined;
      const [taken, readOne] = [beside.taken.bind(beside), beside.readOne.bind(beside)];
      beside.taken = (slot) => {
        counts.there++;
        return taken(slot);
      };
      beside.readOne = () => {
        const isOne = readOne();
        if (isOne) [counts.here, counts.there] = [counts.here + 1, counts.there - 1];
        return isOne;
      };
      return beside;
    };
  };

  it('make the recording that is read by one, to the bit, with its findings or its refusal', async function () {
    this.timeout(240_000);
    const counts = { there: 0, here: 0 };
    const fault = fc.tuple(
      fc.nat(1_000_000),
      fc.constantFrom('word', 'header', 'blank', 'blank', 'zeros', 'return', 'empty', 'empty', 'long'),
    );
    const law = fc.asyncProperty(
      fc.boolean(),
      fc.array(fault, { maxLength: 6 }),
      fc.integer({ min: 5000, max: 60_000 }),
      async (stamped, faults, size) => {
        const text = textOf(stamped, faults, 20_000);
        assert.ok(text.length > 1.5 * limits.head);
        const alone = await readIn(text, size, unwatched);
        assert.equal(await readIn(text, size, { ...unwatched, beside: counting(counts) }), alone);
      },
    );
    await fc.assert(law, { numRuns: 25 });
    assert.ok(counts.there > 50, JSON.stringify(counts));
  });

  it('are read here where the other thread does not come to them', async () => {
    const text = textOf(
      false,
      [
        [5000, 'blank'],
        [9000, 'empty'],
      ],
      20_000,
    );
    const nobody: StartBeside = (plan, capacity) => RowsBeside.of(plan, capacity);
    assert.equal(await readIn(text, 20_000, { ...unwatched, beside: nobody }), await readIn(text, 20_000, unwatched));
  });

  it('are read here once the other thread does not answer, in memory that it has no hold of', async () => {
    const text = textOf(false, [[100, 'blank']], 40_000);
    const silent: StartBeside = (plan, capacity) => {
      const beside = RowsBeside.of(plan, capacity)!;
      const taken = beside.taken.bind(beside);
      let count = 0;
      beside.taken = (slot) => {
        if (++count !== 6) return taken(slot);
        const { rows, values } = taken(slot)!;
        beside.isLost = true;
        // It writes on later, into its own rows.
        setImmediate(() => plan.kinds.forEach((_, k) => values(k).fill(rows)));
        return undefined;
      };
      return beside;
    };
    assert.equal(await readIn(text, 20_000, { ...unwatched, beside: silent }), await readIn(text, 20_000, unwatched));
  });

  it('may be far more than the head lets expect', async () => {
    const long = Array.from({ length: 9000 }, (_, i) => `${(i / 200).toFixed(30)},${(i % 7) / 4},1`);
    const short = Array.from({ length: 200_000 }, (_, i) => `${(45 + i / 200).toFixed(3)},${i % 5},2`);
    const text = ['time,x (g),y (g)', ...long, ...short, ''].join('\n');
    const counts = { there: 0, here: 0 };
    const beside = counting(counts);
    assert.equal(await readIn(text, 50_000, { ...unwatched, beside }), await readIn(text, 50_000, unwatched));
    assert.ok(counts.here + counts.there > 0, JSON.stringify(counts));
  });

  it('are none of a packed file, of which the host unpacks one piece while the one before is read', async () => {
    const bytes = gzipSync(textOf(false, [], 20_000));
    const source = {
      path: 'run.csv.gz',
      size: bytes.length,
      read: (at: number) => Promise.resolve(bytes.subarray(at)),
    };
    const beside = (): never => assert.fail('another thread was started');
    assert.ok((await read(source, {}, { ...unwatched, beside })).ok);
  });

  it('may be as wide and as long as any, beyond the room that they share', async () => {
    const wide = `time,${'x,'.repeat(300)}y\n`.replace(/x/g, () => `c${Math.random().toFixed(6).slice(2)}`);
    const row = (i: number): string => `${(i / 100).toFixed(2)},${'1,'.repeat(300)}2\n`;
    const text = wide + Array.from({ length: 3000 }, (_, i) => row(i)).join('');
    const counts = { there: 0, here: 0 };
    const beside = counting(counts);
    assert.equal(await readIn(text, 200_000, { ...unwatched, beside }), await readIn(text, 200_000, unwatched));
    const tooLong = `${textOf(false, [], 20_000)}${'7'.repeat(limits.line + 200_000)}\n1,2,3\n`;
    const refused = await readIn(tooLong, 90_000, { ...unwatched, beside });
    assert.match(refused, /line-too-long/);
    assert.equal(refused, await readIn(tooLong, 90_000, unwatched));
  });

  it('are those of one large file that is read by itself, and the thread is free for others afterwards', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'washboard-beside-'));
    try {
      const absolute = join(folder, 'run.csv');
      writeFileSync(absolute, textOf(false, [[400_000, 'empty']], 700_000));
      const task = { absolute, path: 'run.csv', options: {}, channels: [] };
      const own = new ReadingThreads(program, 2);
      let started = 0;
      const aided = Object.assign(Object.create(own) as ReadingThreads, {
        count: 2,
        beside: ((plan, capacity) => {
          started++;
          return own.beside(plan, capacity);
        }) satisfies StartBeside,
      });
      const [alone] = readerIn(undefined)([task], quietWatch, new Identities());
      const [both] = readerIn(aided)([task], quietWatch, new Identities());
      assert.deepEqual(await both, await alone);
      assert.equal(started, 1);
      const again = await Promise.all([own.read(task, unwatched), own.read(task, unwatched)]);
      for (const { recording } of again) assert.deepEqual(recording, (await alone).recording);
      await own.dispose();
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

import { strict as assert } from 'node:assert';
import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { diskHost } from '../../src/disk/host.ts';
import { clearKept, keptSize, tidyKept } from '../../src/disk/keptFolder.ts';
import { KeptStore } from '../../src/disk/keptStore.ts';
import { Engine } from '../../src/engine/engine.ts';
import { reportJson } from '../../src/engine/json.ts';
import { recording, quietWatch } from '../engine/memoryFiles.ts';
import { withoutRights } from './rights.ts';

const engine = '0123456789abcdef01234567';
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const cells = [
  'a = load "raw/a-*.csv" label "a" | trim 2..60 s\nb = load "raw/b-*.csv" label "b" | trim 2..60 s\nnone = load "raw/none.txt"',
  'S = spectrum a\nlevels S\ncompare a with b over 4..10 Hz, 10..50 Hz axes x, z\nspectrogram a[1]',
];

/** Of two long texts only the place where they part is told. */
function assertSame(found: string, wanted: string): void {
  let at = 0;
  while (at < wanted.length && found[at] === wanted[at]) at++;
  assert.equal(found.slice(at, at + 80), wanted.slice(at, at + 80), `from byte ${at}`);
}

describe('a store of results', () => {
  let folder: string;
  let kept: string;
  before(() => {
    folder = mkdtempSync(join(tmpdir(), 'washboard-kept-'));
    kept = join(folder, 'cache');
    // Others may look into it, as one of them does below.
    chmodSync(folder, 0o755);
    mkdirSync(join(folder, 'raw'));
    for (let run = 0; run < 6; run++)
      writeFileSync(
        join(folder, 'raw', `${run % 2 === 0 ? 'a' : 'b'}-${run}.csv`),
        recording({ seconds: 90, rate: 250, level: run % 2 === 0 ? 0.3 : 0.4, seed: run + 1 }),
      );
    writeFileSync(join(folder, 'raw', 'none.txt'), 'no table\n');
  });
  afterEach(() => rmSync(kept, { recursive: true, force: true }));
  after(() => rmSync(folder, { recursive: true }));

  const stored = (): string[] =>
    readdirSync(kept, { recursive: true, encoding: 'utf8' })
      .map((name) => join(kept, name))
      .filter((path) => statSync(path).isFile());

  /** Runs the study as a program does that was just started. */
  async function run(store?: KeptStore): Promise<{ json: string; computed: string[] }> {
    const host = diskHost(folder, folder, { kept: store });
    const report = await new Engine(host).run({ cells, wanted: 'all' }, quietWatch);
    await store?.settled();
    const places = cells.map(() => ({ line: 1 }));
    const computed = report.results.flatMap(({ cached, called }) => (cached ? [] : [called]));
    return { json: JSON.stringify(reportJson('study', places, report)), computed };
  }

  it('gives back what was kept, and nothing that is torn, damaged or another’s', async () => {
    const store = new KeptStore(kept, engine);
    store.set('a', [bytesOf('some '), bytesOf('bytes')]);
    await store.settled();
    assert.equal(Buffer.from((await store.get('a')) ?? []).toString(), 'some bytes');
    assert.equal(await store.get('b'), undefined);
    assert.equal(await new KeptStore(kept, engine.replace('0', 'f')).get('a'), undefined);
    const [path] = stored();
    const whole = readFileSync(path);
    const changed = (at: number): Buffer =>
      Buffer.from(whole).fill(whole.at(at)! ^ 1, at < 0 ? whole.length + at : at, at + 1 || undefined);
    for (const bad of [
      whole.subarray(0, 20),
      whole.subarray(0, -1),
      Buffer.alloc(0),
      changed(0),
      changed(33),
      changed(-1),
    ]) {
      writeFileSync(path, bad);
      const known = await store.get('a');
      assert.ok(known === undefined || Buffer.from(known).toString() === 'some bytes', 'by one who knew it');
      assert.equal(await new KeptStore(kept, engine).get('a'), undefined, 'by one who comes anew');
    }
    writeFileSync(path, whole);
    assert.equal(Buffer.from((await new KeptStore(kept, engine).get('a')) ?? []).toString(), 'some bytes');
  });

  it('gives what waits to be written, and the last that was kept by a key, whoever kept it', async () => {
    const [store, other] = [new KeptStore(kept, engine), new KeptStore(kept, engine)];
    const told = async (of: KeptStore): Promise<string> => Buffer.from((await of.get('a')) ?? []).toString();
    store.set('a', [bytesOf('early')]);
    assert.equal(await told(store), 'early');
    assert.equal(await told(other), '');
    await store.settled();
    other.set('a', [bytesOf('la'), bytesOf('ter')]);
    await other.settled();
    assert.equal(await told(new KeptStore(kept, engine)), 'later');
    store.set('a', [bytesOf('last')]);
    const settling = store.settled();
    assert.equal(await told(store), 'last');
    await settling;
    assert.equal(await told(new KeptStore(kept, engine)), 'last');
  });

  it('gives the last that was kept, though the clock of whoever kept before it was ahead', async () => {
    const [store, other] = [new KeptStore(kept, engine), new KeptStore(kept, engine)];
    await other.get('a');
    store.set('a', [bytesOf('early')]);
    await store.settled();
    const [path] = stored();
    const ahead = path.replace(/(\d{13})(?=-1-)/, (moment) => String(Number(moment) + 3_600_000));
    assert.notEqual(ahead, path);
    renameSync(path, ahead);
    other.set('a', [bytesOf('later')]);
    await other.settled();
    assert.equal(Buffer.from((await new KeptStore(kept, engine).get('a')) ?? []).toString(), 'later');
  });

  it('gives the last that was kept, however far ahead a clock was', async () => {
    const told = async (): Promise<string> =>
      Buffer.from((await new KeptStore(kept, engine).get('a')) ?? []).toString();
    const keep = async (text: string): Promise<void> => {
      const store = new KeptStore(kept, engine);
      store.set('a', [bytesOf(text)]);
      await store.settled();
    };
    const moments = ['9999999999999', '99999999999999', '8639999999999990'];
    for (const moment of moments) {
      await keep('early');
      const [newest] = stored().sort().reverse();
      renameSync(newest, newest.replace(/\d+(?=-1-)/, moment));
      assert.equal(await told(), 'early', moment);
      await keep(`later than ${moment}`);
      assert.equal(await told(), `later than ${moment}`);
      await keep('last');
      assert.equal(await told(), 'last');
      assert.equal((await keptSize(kept)).entries, 3);
      rmSync(kept, { recursive: true });
    }
  });

  it('takes nothing for its own that another engine kept, though it lies in its folder', async () => {
    const { json: wanted } = await run();
    await run(new KeptStore(kept, engine.replace('0', 'f')));
    renameSync(join(kept, engine.replace('0', 'f')), join(kept, engine));
    const { json, computed } = await run(new KeptStore(kept, engine));
    assertSame(json, wanted);
    assert.equal(computed.length, (await run()).computed.length);
  });

  it('goes on keeping for a run in which it was cleared', async () => {
    const store = new KeptStore(kept, engine);
    for (let i = 0; i < 30; i++) {
      store.set(`entry ${i}`, [bytesOf(`of ${i}`)]);
      const settling = store.settled();
      if (i < 20) await clearKept(kept);
      await settling;
    }
    assert.equal(store.trouble, undefined);
    assert.ok((await keptSize(kept)).entries >= 10, 'those that came later');
    assert.equal(Buffer.from((await new KeptStore(kept, engine).get('entry 29')) ?? []).toString(), 'of 29');
  });

  it('keeps many entries in few files, whatever their sizes, and finds each', async () => {
    const store = new KeptStore(kept, engine);
    const bytes = (i: number): Uint8Array => new Uint8Array(i % 50 === 7 ? 1_500_000 : (i * 37) % 5000).fill(i);
    for (let i = 0; i < 300; i++) store.set(`entry ${i}`, [bytes(i)]);
    await store.settled();
    assert.deepEqual((await keptSize(kept)).entries, 300);
    assert.ok(stored().length < 12, `${stored().length} files`);
    const again = new KeptStore(kept, engine);
    const wrong = [];
    for (const i of Array.from({ length: 300 }, (_, k) => (k * 77) % 300))
      if (!Buffer.from((await again.get(`entry ${i}`)) ?? [1, 2]).equals(bytes(i))) wrong.push(i);
    assert.deepEqual(wrong, []);
  });

  it('writes what lies in many small files together, the newest of each key, and loses nothing', async () => {
    for (let i = 0; i < 100; i++) {
      const store = new KeptStore(kept, engine);
      // Whoever looks knows what is there, and only then can write it anew.
      await store.get('');
      store.set(`own ${i}`, [bytesOf(`of ${i}`)]);
      store.set('shared', [bytesOf(`at ${i}`)]);
      await store.settled();
    }
    assert.ok(stored().length < 40, `${stored().length} files`);
    const again = new KeptStore(kept, engine);
    const told = async (key: string): Promise<string> => Buffer.from((await again.get(key)) ?? []).toString();
    const own = await Promise.all(Array.from({ length: 100 }, (_, i) => told(`own ${i}`)));
    assert.deepEqual(
      own,
      Array.from(own, (_, i) => `of ${i}`),
    );
    assert.equal(await told('shared'), 'at 99');
  });

  it('misses what was removed meanwhile, and keeps it anew', async () => {
    const store = new KeptStore(kept, engine);
    store.set('a', [bytesOf('some')]);
    await store.settled();
    assert.deepEqual(await tidyKept(kept, { bytes: 0 }, { engine, now: Date.now() }), { entries: 1, bytes: 112 });
    assert.equal(await store.get('a'), undefined);
    store.set('a', [bytesOf('again')]);
    await store.settled();
    assert.equal(Buffer.from((await store.get('a')) ?? []).toString(), 'again');
  });

  it('leaves every result as it is: not kept, kept, taken from it, with entries damaged or missing', async () => {
    const { json: wanted } = await run();
    const first = await run(new KeptStore(kept, engine));
    assertSame(first.json, wanted);
    assert.ok((await keptSize(kept)).entries > 6, 'entries');
    const second = await run(new KeptStore(kept, engine));
    assertSame(second.json, wanted);
    assert.ok(second.computed.length < first.computed.length, second.computed.join());
    const wholes = stored().map((path) => ({ path, whole: readFileSync(path) }));
    for (let i = 0; i < 12; i++) {
      for (const { path, whole } of wholes) {
        const bytes = Buffer.from(whole);
        bytes[Math.floor((i * bytes.length) / 12)] ^= 1;
        if (i % 4 === 3) rmSync(path, { force: true });
        else writeFileSync(path, i % 4 === 2 ? whole.subarray(0, (i * whole.length) / 12) : bytes);
      }
      assertSame((await run(new KeptStore(kept, engine))).json, wanted);
      for (const path of stored()) rmSync(path);
    }
  });

  it('knows a recording that was written anew, even where its size and time are as before', async () => {
    await run(new KeptStore(kept, engine));
    const path = join(folder, 'raw', 'a-0.csv');
    const [text, { atime, mtime }] = [readFileSync(path), statSync(path)];
    writeFileSync(
      path,
      text.toString().replace(/\d(?=\n$)/, (digit) => String((Number(digit) + 1) % 10)),
    );
    utimesSync(path, atime, mtime);
    const { json } = await run(new KeptStore(kept, engine));
    assertSame(json, (await run()).json);
    writeFileSync(path, text);
  });

  it('that can’t be written says why, once, and changes no result', async () => {
    writeFileSync(kept, 'a file where the folder would be');
    const store = new KeptStore(kept, engine);
    const { json } = await run(store);
    assert.equal(store.trouble, 'ENOTDIR');
    assertSame(json, (await run()).json);
  });

  it('in which nothing may be read or written changes no result, and says why; what may be read is taken', async () => {
    const { json: wanted } = await run();
    const first = await run(new KeptStore(kept, engine));
    const blocked = new KeptStore(kept, engine);
    assertSame((await withoutRights(kept, 0o000, () => run(blocked))).json, wanted);
    assert.equal(blocked.trouble, 'EACCES');
    const readable = await withoutRights(kept, 0o555, () => run(new KeptStore(kept, engine)));
    assertSame(readable.json, wanted);
    assert.ok(readable.computed.length < first.computed.length, readable.computed.join());
  });

  it('is told nothing anew of files that are known to it already', async () => {
    // What a file holds is known again by its times only once it has rested.
    await setTimeout(2100);
    await run(new KeptStore(kept, engine));
    const store = new KeptStore(kept, engine);
    const told: string[] = [];
    store.set = (key) => told.push(key);
    await run(store);
    assert.deepEqual(
      told.filter((key) => key.startsWith('file ')),
      [],
    );
  });
});

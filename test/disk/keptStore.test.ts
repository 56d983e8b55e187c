import { strict as assert } from 'node:assert';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { diskHost } from '../../src/disk/host.ts';
import { keptSize } from '../../src/disk/keptFolder.ts';
import { KeptStore } from '../../src/disk/keptStore.ts';
import { Engine } from '../../src/engine/engine.ts';
import { reportJson } from '../../src/engine/json.ts';
import { recording, quietWatch } from '../engine/memoryFiles.ts';

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
    await settled(store);
    const places = cells.map(() => ({ line: 1 }));
    const computed = report.results.flatMap(({ cached, called }) => (cached ? [] : [called]));
    return { json: JSON.stringify(reportJson('study', places, report)), computed };
  }

  /** Waits until nothing is being written. */
  async function settled(store: KeptStore | undefined): Promise<void> {
    for (let before = -1, now = 0; store !== undefined && before !== now;) {
      before = now;
      await pause(100);
      now = (await keptSize(kept)).bytes;
    }
  }

  it('gives back what was kept, and nothing that is torn, damaged or another’s', async () => {
    const store = new KeptStore(kept, engine);
    store.set('a', [bytesOf('some '), bytesOf('bytes')]);
    await settled(store);
    assert.equal(Buffer.from((await store.get('a')) ?? []).toString(), 'some bytes');
    assert.equal(await store.get('b'), undefined);
    assert.equal(await new KeptStore(kept, engine.replace('0', 'f')).get('a'), undefined);
    const [path] = stored();
    const whole = readFileSync(path);
    for (const bad of [whole.subarray(0, 20), whole.subarray(0, -1), Buffer.concat([whole, whole]), Buffer.alloc(0)]) {
      writeFileSync(path, bad);
      assert.equal(await store.get('a'), undefined);
    }
  });

  it('leaves every result as it is: not kept, kept, taken from it, with entries damaged or missing', async () => {
    const { json: wanted } = await run();
    const first = await run(new KeptStore(kept, engine));
    assertSame(first.json, wanted);
    assert.ok(stored().length > 6);
    const second = await run(new KeptStore(kept, engine));
    assertSame(second.json, wanted);
    assert.ok(second.computed.length < first.computed.length, second.computed.join());
    for (const [i, path] of stored().entries()) {
      const bytes = readFileSync(path);
      bytes[(i * 37) % bytes.length] ^= 1;
      if (i % 3 === 0) rmSync(path);
      else if (i % 3 === 1) writeFileSync(path, bytes);
    }
    assertSame((await run(new KeptStore(kept, engine))).json, wanted);
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
});

import { strict as assert } from 'node:assert';
import { gzipSync } from 'node:zlib';
import { Engine } from '../../src/engine/engine.ts';
import { factsOf, type NameFacts } from '../../src/engine/facts.ts';
import { channelsOf } from '../../src/engine/fileFacts.ts';
import type { ByteSource } from '../../src/readers/recording.ts';
import { MemoryHost, quietWatch, recording } from './memoryFiles.ts';

const engine = new Engine(
  new MemoryHost({
    'a1.csv': recording({ seed: 1 }),
    'a2.csv': recording({ seed: 2, seconds: 19 }),
    'b1.csv': recording({ seed: 3, level: 0.2 }),
    'b2.csv': recording({ seed: 4, level: 0.2 }),
  }),
);

async function factsAfter(cell: string): Promise<NameFacts> {
  const { results } = await engine.run({ cells: [cell], wanted: 'all' }, quietWatch);
  const { value, error } = results[results.length - 1];
  return factsOf(value ?? assert.fail(error?.message));
}

describe('a value in short', () => {
  it('of runs: how many, channels and unit, rate, durations', async () => {
    const facts = await factsAfter('load "a*.csv"');
    assert.equal(facts.summary, '2 runs · x, y, z in g · 200 Hz · 19 to 20 s');
    assert.deepEqual([facts.rate, facts.duration, facts.unit], [200, 19, 'g']);
  });

  it('of a window: shape, length, overlap, and how far apart its bins lie', async () => {
    assert.equal((await factsAfter('window hann 2 s')).summary, 'hann · 2 s · overlap 50 % · bins 0.5 Hz apart');
  });

  it('of a spectrum: unit, runs, spacing; half its rate is the limit of its bands', async () => {
    const facts = await factsAfter('spectrum (load "a*.csv" channel z) using window hann 2 s');
    assert.match(facts.summary, /^density in g\^2\/Hz · 2 runs · bins 0\.5 Hz apart · about \d+ averages$/);
    assert.equal(facts.rate, 200);
  });

  it('of a comparison: the sides, and each change with its interval', async () => {
    const { summary } = await factsAfter(
      'a = load "a*.csv" channel z\nb = load "b*.csv" channel z\ncompare a with b over 10..40 Hz',
    );
    assert.match(summary, /^b \(2 runs\) against a \(2 runs\) · acceleration r\.m\.s\. · 10 to 40 Hz: −\d/);
  });

  it('of a comparison of every two conditions: both sides of each change', async () => {
    const { summary } = await factsAfter(
      'a = load "a1.csv" channel z\nb = load "b1.csv" channel z\nc = load "b2.csv" channel z\n' +
        'compare a with b, c over 10..40 Hz all-pairs',
    );
    const named = summary
      .split(' · ')
      .slice(2)
      .map((change) => change.split(':')[0]);
    assert.deepEqual(
      named,
      ['b against a', 'c against a', 'c against b'].map((sides) => `${sides}, 10 to 40 Hz`),
    );
  });

  it('of a comparison of levels without bands: the whole signal', async () => {
    const { summary } = await factsAfter(
      'a = load "a*.csv" channel z\nb = load "b*.csv" channel z\ncompare a with b metric p99',
    );
    assert.match(summary, / · whole signal: −\d/);
  });

  it('of a quantity: itself', async () => {
    assert.equal((await factsAfter('3 N/mm in N/m')).summary, '3000 N/m');
  });
});

describe('the channels of a file', () => {
  interface Counted extends ByteSource {
    bytesRead: number;
  }
  const source = (bytes: Uint8Array): Counted => {
    const counted: Counted = {
      path: 'a.csv',
      size: bytes.length,
      bytesRead: 0,
      read: (position, length) => {
        counted.bytesRead += Math.min(length, bytes.length - position);
        return Promise.resolve(bytes.subarray(position, position + length));
      },
    };
    return counted;
  };
  const long = new TextEncoder().encode(recording({ seconds: 700 }));
  const watch = { cancelled: () => false, progress: () => undefined };

  it('of a large text come from its beginning', async () => {
    const file = source(long);
    const channels = await channelsOf(file, watch);
    assert.deepEqual(
      channels.map(({ name, unit }) => `${name} ${unit}`),
      ['x g', 'y g', 'z g'],
    );
    assert.ok(long.length > 4e6);
    assert.ok(file.bytesRead < 1e6, `${file.bytesRead} bytes`);
  });

  it('are none, without an error, where a large file can’t be read from a part', async () => {
    // Random digits hardly compress, so that the packed file is large, too.
    const noise = Uint8Array.from({ length: 6e6 }, (_, i) => (Math.imul(i, 2654435761) >>> 24) & 255);
    const packed = gzipSync(Buffer.concat([Buffer.from(long), noise]), { level: 0 });
    assert.ok(packed.length > 4e6);
    assert.deepEqual(await channelsOf(source(packed), watch), []);
  });
});

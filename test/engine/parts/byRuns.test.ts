import { strict as assert } from 'node:assert';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { Cache } from '../../../src/engine/cache.ts';
import { Engine } from '../../../src/engine/engine.ts';
import type { Host } from '../../../src/engine/host.ts';
import { reportJson } from '../../../src/engine/json.ts';
import type { Kept } from '../../../src/engine/kept/keptAnswers.ts';
import { MemoryHost, MemoryKept, quietWatch, readingAhead } from '../memoryFiles.ts';
import { recordingOf } from './mixedStudy.ts';

const seconds = 14;
const rate = 200;
const axes = 3;

/** Recordings of each of two pads and two of the logger at rest: every third is uneven, some have gaps, and one of each is clipped. */
const studyOf = (count: number): Record<string, string> =>
  Object.fromEntries([
    ...['foam', 'gel'].flatMap((pad, side) =>
      Array.from({ length: count }, (_, k) => {
        const [jitter, gap, most] = [k % 3 === 0 ? 0.3 : 0, k % 4 === 1 ? 150 : 0, k === 4 ? 1.3 : 9];
        const text = recordingOf({ seed: 40 * side + k + 1, seconds, rate, jitter, gap, most, axes });
        return [`${pad}-${k + 1}.csv`, text] as const;
      }),
    ),
    ...[0, 0.3].map((jitter, k) => {
      const text = recordingOf({ seed: 80 + k, seconds, rate, jitter, gap: 0, most: 9, axes });
      // Every other fifth of a second is lost.
      const rows = text.split('\n').filter((_, row) => row === 0 || Math.floor(row / 40) % 2 === 0);
      return [`broken-${k + 1}.csv`, `${rows.join('\n')}\n`] as const;
    }),
    ...[0, 0.3].map((jitter, k) => {
      const text = recordingOf({ seed: 90 + k, seconds, rate, jitter, gap: 0, most: 9, axes });
      return [`rest-${k + 1}.csv`, text.replaceAll(/,(-?)(\d)\.(\d)/g, ',$1$2.00$3')] as const;
    }),
  ]);

const study = studyOf(6);

const bound =
  'p = plan "Does it?" channel z metric wk, primary 4..20 Hz, claim reduction 10 % repeats 6\nfoam = load "foam-*.csv" | trim 1..13 s\ngel = load "gel-*.csv" | trim 1..13 s\nrest = load "rest-*.csv"\nf = channel foam z\ng = channel gel z';

/** Comparisons that each run's own figures are enough for. */
const comparisons: readonly string[] = [
  'compare f with g metric p99',
  'compare f with g metric p99_9',
  'compare f with g metric vdv margin 10 %',
  'compare f with g metric wk',
  'compare f with g metric wd over 4..10 Hz, 10..50 Hz',
  'compare f with g over 4..10 Hz, 10..50 Hz',
  'compare f with g',
  'compare f with g over 10..50 Hz using window hann 1 s above rest',
  'compare f with g metric p99 above rest',
  'compare f with g over 10..50 Hz above (spectrum rest)',
  'compare (spectrum f) with (spectrum g) over 10..50 Hz above rest',
  'compare foam with gel metric p99 axes x, z',
  'compare foam with gel metric wd axes x, y, z',
  'compare foam with gel over 4..10 Hz axes x, z above rest',
  'compare (resultant foam) with (resultant gel) metric p99',
  'compare (resultant foam) with (resultant gel) metric wk over 4..20 Hz',
  'compare (resultant foam) with (resultant gel) over 4..20 Hz above (resultant rest)',
  'compare (transfer foam from x to z) with (transfer gel from x to z) over 4..20 Hz',
  'compare f with g reference (channel rest z) metric p99',
  'compare (weight f wk) with (weight g wk)',
  'compare (weight f wk) with (weight g wk) over 4..10 Hz',
  'compare (weight f wk) with (weight g wk) metric p99',
  'compare f with g plan p above rest',
];

/** What they are not enough for. */
const others: readonly string[] = [
  'compare (spectrum (weight f wk)) with (spectrum (weight g wk))',
  'compare (spectrum f) with (spectrum g) metric p99',
  'compare f with (g in m/s^2) metric p99',
  'compare f with g over 10..50 Hz above (spectrum rest using window hann 1 s)',
];

const refusedOnes: readonly string[] = [
  'compare (weight f wk) with g',
  'compare (weight f wk) with (weight g wk) metric wk',
  'compare f with (load "broken-*.csv" channel z) metric wk',
  'compare (load "broken-*.csv" channel z) with g metric wf',
  'compare (integrate f to velocity above 2 Hz) with (integrate g to velocity above 2 Hz) metric vdv',
  'compare f with g over 4..20 Hz using window hann 30 s',
  'compare f with g over 4..20 Hz above (channel foam x)',
  'compare f with f metric p99',
];

/** All that is told of a comparison, and whether it came off. */
async function told(line: string, samples: number, host: Host, kept?: Kept): Promise<{ all: string; ok: boolean }> {
  const engine = new Engine({ files: host.files, digest: host.digest, ...(kept && { kept }) }, new Cache({ samples }));
  const cells = [bound, line];
  const report = await engine.run({ cells, wanted: 'all' }, quietWatch);
  const json = reportJson(
    'n',
    cells.map(() => ({ line: 1 })),
    report,
  );
  const all = JSON.stringify(json);
  assert.ok(!all.includes('"internal"'), line);
  return { all, ok: report.ok };
}

describe('what a comparison needs of each run, made by itself', () => {
  it('gives what the samples of all runs give, to the last digit, cold and from what was kept without a file', async () => {
    for (const line of [...comparisons, ...others, ...refusedOnes]) {
      const whole = await told(line, Infinity, new MemoryHost(study));
      assert.equal(whole.ok, !refusedOnes.includes(line), line);
      const kept = new MemoryKept();
      for (const [samples, store] of [
        [1e5, undefined],
        [0, kept],
        [0, kept],
      ] as const) {
        const isAgain = store !== undefined && store.entries.size > 0;
        const host = new MemoryHost(study);
        const { all } = await told(line, samples, host, store);
        assert.ok(all === whole.all, `${line} with ${samples} bytes`);
        if (isAgain && comparisons.includes(line)) assert.deepEqual(host.opened, [], line);
      }
    }
  }).timeout(180_000);

  it('asks for each file once, where the host reads ahead', async () => {
    for (const line of comparisons) {
      const { host, read } = readingAhead(study);
      await told(line, 0, host);
      const patterns = [...(line.includes('rest') ? ['rest'] : []), 'foam', 'gel'];
      const counts = patterns.map((name) => read.filter((path) => path.startsWith(name)).length);
      assert.deepEqual(counts.slice(-2), [6, 6], line);
      assert.ok(counts.length < 3 || counts[0] === 2, line);
    }
  });

  it('never holds the samples of both sides at once', async () => {
    setFlagsFromString('--expose-gc');
    const collect = runInNewContext('gc') as () => void;
    const held = (): number => {
      // What the first finds is given back by the second.
      collect();
      collect();
      return process.memoryUsage().arrayBuffers;
    };
    const count = 16;
    const lines = comparisons.filter((line) => line.includes(' axes '));
    assert.equal(lines.length, 3);
    for (const line of lines) {
      const host = new MemoryHost(studyOf(count));
      const engine = new Engine(host, new Cache({ samples: 0 }));
      const cells = [bound, line];
      await engine.run({ cells, wanted: [0] }, quietWatch);
      const open = host.files.open.bind(host.files);
      let most = 0;
      const before = held();
      Object.assign(host.files, {
        open: (path: string) => {
          if (host.opened.length % 4 === 0) most = Math.max(most, held() - before);
          return open(path);
        },
      });
      const opened = host.opened.length;
      const report = await engine.run({ cells, wanted: [1] }, quietWatch);
      assert.ok(report.ok && host.opened.length >= opened + 2 * count, line);
      const ofOne = axes * seconds * rate * Float64Array.BYTES_PER_ELEMENT;
      assert.ok(most < 1.5 * count * ofOne, `${line}: ${(most / ofOne).toFixed(1)} recordings`);
    }
  });
});

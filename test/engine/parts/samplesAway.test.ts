import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { Cache } from '../../../src/engine/cache.ts';
import { Engine } from '../../../src/engine/engine.ts';
import type { Host } from '../../../src/engine/host.ts';
import { reportJson } from '../../../src/engine/json.ts';
import type { Kept } from '../../../src/engine/kept/keptAnswers.ts';
import type { RunReport } from '../../../src/engine/result.ts';
import { drawnRuns } from '../../../src/charts/drawnRuns.ts';
import { show } from '../../../src/engine/show.ts';
import { allRunsOf, isAway, partsWithArrays } from '../../../src/values/away.ts';
import { extent, gapCount, sampledFor, type Run } from '../../../src/values/run.ts';
import { MemoryHost, MemoryKept, quietWatch, readingAhead, recording } from '../memoryFiles.ts';
import { mixedCells, mixedFiles } from './mixedStudy.ts';

const study: Record<string, string> = Object.fromEntries(
  [...'abcdefgh'].map((letter, k) => [
    `${letter < 'e' ? 'foam' : 'gel'}-${letter}.csv`,
    recording({ seconds: 20, rate: 200, seed: k + 1, level: letter < 'e' ? 0.3 : 0.25 }),
  ]),
);

/** What looks at samples late, and in many ways. */
const cells = [
  'foam = load "foam-*.csv" channel z | trim 2..18 s\ngel = load "gel-*.csv" channel z | trim 2..18 s\ng = gel in m/s^2',
  'c = compare foam with gel over 4..10 Hz, 10..50 Hz',
  'claim c gel reduction 10 % over 10..50 Hz',
  'compare foam with gel metric p99',
  'compare foam with g over 4..10 Hz',
  'compare foam with (gel | highpass 2 Hz) using window hann 1 s over 10..50 Hz',
  'w = foam | weight wk\nv = gel | weight wk\ncompare w with v over 4..10 Hz, 10..50 Hz\ncompare w with v',
  'compare (spectrum foam) with (spectrum gel) over 4..10 Hz',
  'plot foam over 3..5 s',
  'foam',
  'levels (foam[2])',
  'peaks (spectrum g)',
  'check foam',
  'running gel over 1 s',
  'table foam',
];

interface Found {
  readonly report: RunReport;
  readonly all: string;
}

/** All that is told and drawn of a run, with so many bytes of samples at hand. */
async function found(
  files: Record<string, string>,
  texts: readonly string[],
  samples: number,
  kept?: Kept,
): Promise<Found> {
  const host = Object.assign(new MemoryHost(files), kept === undefined ? {} : { kept });
  const report = await new Engine(host, new Cache({ samples })).run({ cells: texts, wanted: 'all' }, quietWatch);
  const json = reportJson(
    'n',
    texts.map(() => ({ line: 1 })),
    report,
  );
  return { report, all: JSON.stringify([json, report.results.map((result) => show(result))]) };
}

describe('samples that are not at hand', () => {
  it('are no difference to what is told and drawn, however many are, in a study of everything', async () => {
    const whole = await found(study, cells, Infinity);
    assert.deepEqual(
      whole.report.results.flatMap(({ error }) => error?.message ?? []),
      [],
    );
    for (const samples of [0, 1e5, 3e5]) {
      const { all } = await found(study, cells, samples);
      assert.ok(all === whole.all, `with ${samples} bytes`);
    }
  });

  it('are none whichever cells there are, in a study of recordings of all sorts', async () => {
    const files = mixedFiles();
    await fc.assert(
      fc.asyncProperty(
        fc.subarray([...mixedCells], { minLength: 1 }),
        fc.constantFrom(0, 2e4, 2e5),
        async (texts, samples) => {
          const [away, whole] = [await found(files, texts, samples), await found(files, texts, Infinity)];
          assert.ok(away.all === whole.all, `with ${samples} bytes: ${texts.join('\n')}`);
        },
      ),
      { numRuns: 6 },
    );
  });

  it('are none for the next start, which keeps fewer or more of them', async () => {
    const kept = new MemoryKept();
    const { all } = await found(study, cells, Infinity, kept);
    for (const samples of [0, Infinity]) assert.ok((await found(study, cells, samples, kept)).all === all, 'kept');
    const other = new MemoryKept();
    assert.ok((await found(study, cells, 0, other)).all === all, 'kept without samples');
    assert.ok((await found(study, cells, Infinity, other)).all === all, 'read again');
  });

  it('are none for the next start of a study of recordings of all sorts, whose faults are drawn', async () => {
    const kept = new MemoryKept();
    const { all, report } = await found(mixedFiles(), mixedCells, Infinity);
    assert.ok(
      report.results.some(({ value }) => value?.kind === 'findings' && drawnRuns(value).length > 1),
      'nothing is remarked on',
    );
    for (const samples of [Infinity, 2e5, 0, Infinity])
      assert.ok((await found(mixedFiles(), mixedCells, samples, kept)).all === all, `with ${samples} bytes`);
    const other = new MemoryKept();
    for (const samples of [0, 0, Infinity])
      assert.ok((await found(mixedFiles(), mixedCells, samples, other)).all === all, `again with ${samples} bytes`);
  });

  it('are read again of what is drawn alone, and of nothing where nobody draws', async () => {
    const host = new MemoryHost(mixedFiles());
    const openedBy = async (
      text: string,
      undrawn: boolean,
    ): Promise<{ readonly opened: number; readonly json: string }> => {
      const engine = new Engine(host, new Cache({ samples: 0 }));
      const bind = 'a = load "raw/c-*.csv" channel z | trim 1..5 s';
      await engine.run({ cells: [bind], wanted: 'all' }, quietWatch);
      const before = host.opened.length;
      const cells = [bind, text];
      const report = await engine.run({ cells, wanted: [1], undrawn }, quietWatch);
      assert.ok(report.ok, report.results.map(({ error }) => error?.message).join());
      const opened = host.opened.length - before;
      return { opened, json: JSON.stringify(reportJson('n', [{ line: 1 }, { line: 4 }], report)) };
    };
    const twenty = await openedBy('a', false);
    assert.equal(twenty.opened, 0);
    for (const [text, drawn] of [
      ['plot a', 12],
      ['plot (a in m/s^2) over 1..3 s', 12],
      ['plot a[15]', 1],
      ['plot a, (a[18])', 12],
      ['plot (a[18]), (a[19])', 2],
      ['levels (a[7])', 1],
    ] as const) {
      const [seen, unseen] = [await openedBy(text, false), await openedBy(text, true)];
      assert.deepEqual([seen.opened, unseen.opened], [drawn, text.startsWith('plot') ? 0 : drawn], text);
      assert.equal(seen.json, unseen.json, text);
    }
  });

  it('are read once where charts of the same run of a notebook draw them, of as many as they draw', async () => {
    const bound = 'a = load "raw/c-*.csv" channel z | trim 1..5 s\nb = load "raw/b-21.csv", "raw/b-22.csv"';
    const told = async (
      texts: readonly string[],
      samples: number,
    ): Promise<readonly [host: MemoryHost, all: string]> => {
      const host = new MemoryHost(mixedFiles());
      const cells = [bound, ...texts];
      const report = await new Engine(host, new Cache({ samples })).run({ cells, wanted: 'all' }, quietWatch);
      assert.ok(report.ok, report.results.map(({ error }) => error?.message).join());
      return [host, JSON.stringify(report.results.map((result) => show(result)))];
    };
    for (const texts of [
      ['levels a', 'plot a'],
      ['plot a over 2..3 s\nplot b', 'levels (a | highpass 2 Hz)', 'plot a, b'],
      ['plot (a | highpass 2 Hz)'],
      ['check (load "raw/a-*.csv" | channel z)'],
    ]) {
      const [{ opened }, all] = await told(texts, 0);
      assert.equal(new Set(opened).size, opened.length, texts.join('\n'));
      assert.equal(all, (await told(texts, Infinity))[1]);
    }
    // A recording that is picked is drawn whichever it is.
    const [{ opened }] = await told(['plot (a[15])'], 0);
    assert.equal(opened.length - new Set(opened).size, 1);
  });

  it('are not read again of a recording that is picked out of a set, for what was made of the set', async () => {
    const host = new MemoryHost(mixedFiles());
    const engine = new Engine(host, new Cache({ samples: 0 }));
    const bound =
      'a = load "raw/c-*.csv" channel z | trim 1..5 s\nfoam = load sheet "raw/runs.csv" where condition foam | channel z\none = a[4]';
    const told = async (on: Engine, text: string): Promise<readonly [opened: number, told: string]> => {
      const before = host.opened.length;
      const report = await on.run({ cells: [bound, text], wanted: 'all', undrawn: true }, quietWatch);
      const opened = host.opened.slice(before).filter((path) => path !== 'raw/runs.csv');
      return [opened.length, JSON.stringify(reportJson('n', [{ line: 1 }, { line: 5 }], report))];
    };
    await told(engine, 'levels a\nspectrum a using window hann 1 s\nlevels foam\nlevels (a | highpass 2 Hz)');
    for (const [text, opened] of [
      ['levels (a[7])', 0],
      ['levels one', 0],
      ['spectrum (a[2]) using window hann 1 s', 0],
      ['levels (foam[5])', 0],
      ['levels (a[3] | highpass 2 Hz)', 0],
      ['levels (a[3] | highpass 3 Hz)', 1],
      ['levels (a[99])', 0],
    ] as const) {
      const [again, found] = await told(engine, text);
      assert.equal(again, opened, text);
      const [, whole] = await told(new Engine(host, new Cache({ samples: Infinity })), text);
      assert.equal(found, whole, text);
    }
  });

  it('are kept for the next start where all stay at hand, and none where some do not', async () => {
    const samplesKept = async (samples: number): Promise<number> => {
      const kept = new MemoryKept();
      await found(study, cells.slice(0, 2), samples, kept);
      // A step that took long is kept beside what was read.
      return Math.min(8, [...kept.entries.keys()].filter((key) => key.startsWith('samples ')).length);
    };
    assert.deepEqual(await Promise.all([Infinity, 2e5, 0].map(samplesKept)), [8, 0, 0]);
  });

  it('stand, as all arrays of a run do, where whoever weighs it looks for them', async () => {
    const arraysIn = (part: unknown, inner: (object: object) => readonly unknown[]): Set<object> => {
      if (typeof part !== 'object' || part === null) return new Set();
      if (ArrayBuffer.isView(part)) return new Set([part.buffer]);
      return new Set(inner(part).flatMap((one) => [...arraysIn(one, inner)]));
    };
    const { report } = await found(mixedFiles(), mixedCells, Infinity);
    const runs = report.results.flatMap(({ value }) => (value === undefined ? [] : allRunsOf(value)));
    assert.ok(runs.some(({ stamps }) => stamps !== undefined) && runs.length > 10, `${runs.length} runs`);
    for (const run of runs) assert.deepEqual(arraysIn(run, partsWithArrays), arraysIn(run, Object.values));
  });

  it('go with the times of those that were taken unevenly, of which only what is asked for stays', async () => {
    const arraysIn = (part: unknown): number =>
      typeof part !== 'object' || part === null
        ? 0
        : ArrayBuffer.isView(part)
          ? 1
          : Object.values(part).reduce((sum: number, inner) => sum + arraysIn(inner), 0);
    const cells = [
      'a = load "raw/c-*.csv" channel z\nb = load "raw/b-*.csv" | trim 1..5 s\nlevels a\nlevels b\ntable b',
    ];
    const runsWith = async (samples: number): Promise<readonly Run[]> => {
      const { report } = await found(mixedFiles(), cells, samples);
      assert.ok(report.ok);
      return report.results.flatMap(({ value }) => (value === undefined ? [] : allRunsOf(value)));
    };
    const [away, whole] = [await runsWith(0), await runsWith(Infinity)];
    assert.ok(whole.filter(({ stamps }) => stamps !== undefined).length > 4);
    for (const [k, run] of away.entries()) {
      assert.equal(arraysIn(run), 0, run.label);
      const facts = [extent, sampledFor, gapCount].map((fact) => [fact(run), fact(whole[k])]);
      for (const [one, other] of facts) assert.equal(one, other, run.label);
    }
  });

  it('are read once, where a host reads ahead, for all that is asked of each recording by itself', async () => {
    const { host, read } = readingAhead(study);
    const texts = [
      'foam = load "foam-*.csv" channel z | trim 2..18 s\ngel = load "gel-*.csv" channel z | trim 2..18 s\ncompare foam with gel over 10..50 Hz',
      'levels (foam | highpass 2 Hz)\nspectrum gel',
    ];
    const engine = new Engine(host, new Cache({ samples: 0 }));
    const report = await engine.run({ cells: texts, wanted: 'all' }, quietWatch);
    assert.deepEqual(read, Object.keys(study));
    const places = texts.map(() => ({ line: 1 }));
    const whole = await new Engine(new MemoryHost(study)).run({ cells: texts, wanted: 'all' }, quietWatch);
    assert.equal(JSON.stringify(reportJson('n', places, report)), JSON.stringify(reportJson('n', places, whole)));
    assert.ok(report.ok && report.results.every(({ cached }) => !cached), 'told as known before');
  });

  it('are read once for cells that are run one by one, where it is known which are next', async () => {
    const { host, read } = readingAhead(study);
    const texts = [
      'foam = load "foam-*.csv" channel z | trim 2..18 s\ngel = load "gel-*.csv" channel z | trim 2..18 s',
      'levels (foam | highpass 2 Hz)',
      'S = spectrum gel\nband S 4..10 Hz, 10..50 Hz',
      'c = compare foam with gel over 10..50 Hz',
      'claim c gel reduction 10 % over 10..50 Hz\nlevels gel',
    ];
    const places = texts.map(() => ({ line: 1 }));
    const told = async (engine: Engine, knowsNext: boolean): Promise<readonly string[]> => {
      const found: string[] = [];
      for (const at of texts.keys()) {
        const soon = knowsNext ? [...texts.keys()].slice(at + 1) : [];
        const report = await engine.run({ cells: texts, wanted: [at], soon }, quietWatch);
        found.push(JSON.stringify(reportJson('n', places, report)));
      }
      return found;
    };
    const whole = await told(new Engine(new MemoryHost(study)), false);
    assert.deepEqual(await told(new Engine(host, new Cache({ samples: 0 })), true), whole);
    assert.deepEqual(read, Object.keys(study));
  });

  it('are read once again for all that an edit asks of each recording anew', async () => {
    const cells = (to: number): string[] => [
      `foam = load "foam-*.csv" channel z | trim 2..${to} s\ngel = load "gel-*.csv" channel z | trim 2..${to} s`,
      'levels (foam | highpass 2 Hz)\nlevels gel',
      'S = spectrum gel\nband S 4..10 Hz, 10..50 Hz',
      'check foam\nplot gel',
      'compare foam with gel over 10..50 Hz\nrunning gel over 1 s',
    ];
    const { host, read } = readingAhead(study);
    const told = async (on: Host, texts: readonly string[], kept?: Kept): Promise<string> => {
      const engine = new Engine({ ...on, ...(kept && { kept }) }, new Cache({ samples: 0 }));
      const report = await engine.run({ cells: texts, wanted: 'all', undrawn: true }, quietWatch);
      assert.ok(report.ok, report.results.map(({ error }) => error?.message).join());
      return JSON.stringify(
        reportJson(
          'n',
          texts.map(() => ({ line: 1 })),
          report,
        ),
      );
    };
    const kept = new MemoryKept();
    await told(host, cells(18), kept);
    assert.equal(read.length, 8);
    assert.equal(await told(host, cells(17), kept), await told(new MemoryHost(study), cells(17)));
    assert.deepEqual(read.slice(8).sort(), Object.keys(study).sort());
  });

  it('go with what nobody looks at, and are there in what draws them', async () => {
    const { report } = await found(study, cells, 0);
    const away = (line: number): boolean[] =>
      report.results.flatMap(({ value, cell, line: at }) =>
        cell === 0 && at === line && value ? [isAway(value)] : [],
      );
    assert.deepEqual([...away(1), ...away(2)], [true, true]);
    const shown = report.results.filter(
      ({ value, cell }) => cell > 6 && (value?.kind === 'runs' || value?.kind === 'chart'),
    );
    assert.deepEqual(
      shown.map(({ value }) => [value?.kind, value && isAway(value)]),
      [
        ['chart', false],
        ['runs', true],
      ],
    );
  });

  it('stay at hand for the next edit as long as there is room, and go for what is asked for now', async () => {
    const host = new MemoryHost(study);
    const engine = new Engine(host, new Cache({ samples: 1.5e5 }));
    const run = async (text: string): Promise<number> => {
      const before = host.opened.length;
      const report = await engine.run({ cells: [text], wanted: 'all' }, quietWatch);
      assert.ok(report.ok, 'failed');
      return host.opened.length - before;
    };
    const levelsOf = (pattern: string, from: number): string =>
      `levels (trim (load "${pattern}" channel z) ${from}..18 s)`;
    assert.equal(await run(levelsOf('foam-*.csv', 2)), 4);
    assert.equal(await run(levelsOf('foam-*.csv', 3)), 0);
    assert.equal(await run(levelsOf('gel-*.csv', 2)), 4);
    assert.equal(await run(levelsOf('gel-*.csv', 3)), 0);
    assert.equal(await run(levelsOf('foam-*.csv', 4)), 4);
  });

  it('are those that were read before, or the file is told to have changed', async () => {
    const host = new MemoryHost(study);
    const texts = ['foam = load "foam-*.csv" channel z\nx = 1', 'plot foam'];
    const open = host.files.open.bind(host.files);
    let opened = 0;
    const files = {
      ...host.files,
      open: async (path: string, identity?: Parameters<typeof open>[1]) => {
        const source = await open(path, identity);
        return ++opened <= 4
          ? source
          : { ...source, read: () => Promise.resolve(new Uint8Array(0)), fault: () => ({ kind: 'changed' }) as const };
      },
    };
    const engine = new Engine({ ...host, files, digest: host.digest }, new Cache({ samples: 0 }));
    await engine.run({ cells: texts, wanted: [0] }, quietWatch);
    const { results } = await engine.run({ cells: texts, wanted: [1] }, quietWatch);
    assert.deepEqual(
      results.map(({ error }) => error?.code),
      [undefined, 'file-changed'],
    );
  });
});

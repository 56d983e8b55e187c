import { strict as assert } from 'node:assert';
import { sampleCount } from '../../src/values/run.ts';
import { Engine } from '../../src/engine/engine.ts';
import type { RunReport, StatementResult } from '../../src/engine/result.ts';
import { MemoryHost, quietWatch, recording } from './memoryFiles.ts';

const study = [
  '# Runs\nruns = load "raw/*.csv" | channel z',
  'part = trim runs 2..18 s',
  'L = levels part',
  'S = spectrum part using window hann 2 s\nplot S over 1..90 Hz',
  'k = series(40 N/mm, 100 N/mm)\nnatural_frequency(k, 70 kg)',
];

function host(): MemoryHost {
  return new MemoryHost({ 'raw/a 1.csv': recording({ seed: 1 }), 'raw/a 2.csv': recording({ seed: 2 }) });
}

const named = (report: RunReport, name: string): StatementResult =>
  report.results.find((result) => result.name === name) ?? assert.fail(`no ${name}`);
const all = (engine: Engine, cells: readonly string[]): Promise<RunReport> =>
  engine.run({ cells, wanted: 'all' }, quietWatch);

describe('the engine', () => {
  it('runs a study and says which raw files it read', async () => {
    const report = await all(new Engine(host()), study);
    assert.deepEqual(
      report.results.filter(({ error }) => error !== undefined).map(({ error }) => error?.message),
      [],
    );
    assert.equal(report.ok, true);
    assert.deepEqual(
      report.sources.map(({ path }) => path),
      ['raw/a 1.csv', 'raw/a 2.csv'],
    );
    const part = named(report, 'part').value;
    assert.ok(part?.kind === 'runs');
    assert.deepEqual(
      part.runs.map((run) => [sampleCount(run), run.start]),
      [
        [3200, 2],
        [3200, 2],
      ],
    );
  });

  it('shows the last statement of a cell and those that bind no name', async () => {
    const report = await all(new Engine(host()), ['a = 1 mm\nb = 2 mm\na + b\nc = 3 mm']);
    assert.deepEqual(
      report.results.map(({ name, shown }) => [name, shown]),
      [
        ['a', false],
        ['b', false],
        [undefined, true],
        ['c', true],
      ],
    );
  });

  it('evaluates in dependency order, whatever the order of the cells', async () => {
    const report = await all(new Engine(host()), [...study].reverse());
    assert.equal(report.ok, true);
    assert.equal(report.results[0].cell, 0);
  });

  it('runs of a notebook only what the wanted cell needs', async () => {
    const report = await new Engine(host()).run({ cells: study, wanted: [2] }, quietWatch);
    assert.deepEqual(
      report.results.map(({ name }) => name),
      ['runs', 'part', 'L'],
    );
  });

  it('computes after an edit only what depends on it', async () => {
    const memory = host();
    const engine = new Engine(memory);
    await all(engine, study);
    const edited = study.map((cell) => cell.replace('2..18 s', '3..18 s'));
    const report = await all(engine, edited);
    const fresh = report.results.filter(({ cached }) => !cached).map(({ name, cell }) => name ?? cell);
    assert.deepEqual(fresh, ['part', 'L', 'S', 3]);
    assert.deepEqual(memory.opened, ['raw/a 1.csv', 'raw/a 2.csv']);
  });

  it('takes nothing for new after a change of comments and blanks', async () => {
    const engine = new Engine(host());
    await all(engine, study);
    const report = await all(
      engine,
      study.map((cell) => `# new\n${cell.replace('trim runs', 'trim  runs')}`),
    );
    assert.deepEqual(
      report.results.filter(({ cached }) => !cached).map(({ name }) => name),
      [],
    );
  });

  it('reads a raw file again when its bytes changed', async () => {
    const memory = host();
    const engine = new Engine(memory);
    const before = named(await all(engine, study), 'L').value;
    memory.contents.set('raw/a 2.csv', recording({ seed: 2, level: 0.6 }));
    const after = named(await all(engine, study), 'L').value;
    assert.ok(before?.kind === 'levels' && after?.kind === 'levels');
    assert.equal(after.rows[0].rms, before.rows[0].rms);
    assert.ok(after.rows[1].rms > 1.8 * before.rows[1].rms);
  });

  it('gives each cell a key that changes exactly when what it shows would', async () => {
    const engine = new Engine(host());
    const keys = await engine.keys(study);
    const edited = await engine.keys(study.map((cell) => cell.replace('2..18 s', '3..18 s')));
    assert.deepEqual(
      study.map((_, i) => keys.get(i) === edited.get(i)),
      [true, false, false, false, true],
    );
  });

  it('reports the keys of the cells asked for, run or not, and looks each raw file up once', async () => {
    const memory = host();
    const engine = new Engine(memory);
    const keys = await engine.keys(study);
    memory.identified.length = 0;
    const report = await engine.run({ cells: study, wanted: [4], keyed: [2, 4] }, quietWatch);
    assert.deepEqual(
      [...report.keys],
      [2, 4].map((cell) => [cell, keys.get(cell)]),
    );
    assert.deepEqual(memory.identified, ['raw/a 1.csv', 'raw/a 2.csv']);
    assert.deepEqual(report.sources, [], 'the cell that was run reads no file');
  });

  it('computes each content key once a run, and sends with the answer those of the cells asked for', async () => {
    const memory = host();
    const digested: string[] = [];
    const counting = { ...memory, digest: (text: string) => (digested.push(text), memory.digest(text)) };
    const engine = new Engine(counting);
    const cells = [...study, 'levels part', 'spectrum part'];
    const report = await engine.run({ cells, wanted: 'all', keyed: [...cells.keys()] }, quietWatch);
    assert.equal(report.keys.size, cells.length);
    assert.ok(digested.length > cells.length);
    assert.deepEqual(digested.length, new Set(digested).size);
    assert.deepEqual(memory.identified, ['raw/a 1.csv', 'raw/a 2.csv']);
  });

  it('reports a failed statement with its place, and runs the rest', async () => {
    const report = await all(new Engine(host()), [study[0], 'part = trim runs 2..30 s', 'L = levels part', study[4]]);
    assert.equal(report.ok, false);
    const { error } = named(report, 'part');
    assert.match(error?.message ?? '', /^a 1 runs from 0 to 20 s, and 2 s to 30 s reaches outside it\.$/);
    assert.deepEqual([error?.line, error?.from, error?.to], [1, 18, 24]);
    assert.match(named(report, 'L').error?.message ?? '', /part/);
    assert.equal(named(report, 'k').error, undefined);
  });

  it('reports a name bound twice, an unknown name and a circle as errors of their statements', async () => {
    const report = await all(new Engine(host()), [
      'sag = 1 mm\nsag = 2 mm',
      'b = sga + 1 mm',
      'p = q * 2\nq = p * 2',
      'fine = 1 mm + 1 in',
    ]);
    const messages = report.results.map(({ error }) => error?.message);
    assert.match(messages[1] ?? '', /bound/);
    assert.match(messages[2] ?? '', /sga.*sag/);
    assert.match(messages[3] ?? '', /p.*q|q.*p/);
    assert.ok(report.results.at(-1)?.value?.kind === 'quantity');
  });

  it('stops when asked, and leaves no half-made value behind', async () => {
    const memory = host();
    const engine = new Engine(memory);
    let asked = 0;
    const report = await engine.run({ cells: study, wanted: 'all' }, { ...quietWatch, cancelled: () => ++asked > 3 });
    assert.equal(report.cancelled, true);
    assert.equal(report.ok, false);
    assert.equal((await all(engine, study)).ok, true);
  });

  it('tells of progress while it reads', async () => {
    const told: string[] = [];
    await new Engine(host()).run(
      { cells: study, wanted: 'all' },
      { ...quietWatch, progress: (_, what) => told.push(what) },
    );
    assert.ok(told.includes('reading raw/a 2.csv'));
  });
});

import { strict as assert } from 'node:assert';
import type { Output } from '../../src/charts/output.ts';
import { Engine } from '../../src/engine/engine.ts';
import { lookedCloser, moved, shown } from '../../src/engine/moving.ts';
import { MemoryHost, quietWatch, recording } from './memoryFiles.ts';

const cells = ['part = load "raw/a.csv" | channel z | trim 2..18 s', 'plot part', 'levels part'];

describe('moving a literal', () => {
  const engine = new Engine(new MemoryHost({ 'raw/a.csv': recording() }));

  it('shows the wanted cells as they would be, with handles that stand where it was moved to', async () => {
    const report = await engine.run({ cells, wanted: 'all' }, quietWatch);
    const [{ ends }] = shown(engine, report.results[1])!.handles!;
    const literal = ends[1].literal!;
    const { edit, outputs } = await moved(engine, { cells, literal, text: '16.5', wanted: [1] });
    assert.deepEqual(edit, { cell: 0, from: literal.from, to: literal.to, text: '16.5' });
    assert.deepEqual(
      outputs.map(({ cell, line, output }) => [cell, line, output.handles?.[0].ends[1].at]),
      [[1, 1, 16.5]],
    );
  });

  it('runs nothing where it is refused', async () => {
    const report = await engine.run({ cells, wanted: 'all' }, quietWatch);
    const literal = shown(engine, report.results[1])!.handles![0].ends[1].literal!;
    const { edit, refusal, outputs } = await moved(engine, { cells: ['a = 1'], literal, text: '3', wanted: [0] });
    assert.deepEqual([edit, outputs], [undefined, []]);
    assert.match(refusal!, /no longer stands/);
  });

  it('brings no handles to what draws none', async () => {
    const report = await engine.run({ cells, wanted: 'all' }, quietWatch);
    assert.equal(shown(engine, report.results[2])?.handles, undefined);
  });
});

describe('a closer look at a statement’s charts', () => {
  const engine = new Engine(new MemoryHost({ 'raw/a.csv': recording() }));
  const looked = ['part = load "raw/a.csv" | channel z', 'plot part', 'S = spectrum part\nplot S over 1..90 Hz'];
  /** The domain of the first horizontal axis, and how many points of curves are drawn. */
  const drawn = (output: Output): { domain: unknown; points: number } => {
    const { vega } = output.parts.find((part) => part.type === 'chart')!;
    const { scales, data } = vega as unknown as {
      scales: readonly { name: string; domain: unknown }[];
      data: readonly { values?: readonly { f?: readonly number[]; t?: readonly number[]; v?: unknown }[] }[];
    };
    const rows = data.flatMap(({ values }) => values ?? []).filter(({ v }) => Array.isArray(v));
    return {
      domain: scales.find(({ name }) => name === 'x' || name.endsWith('_x'))!.domain,
      points: Math.max(...rows.map(({ f, t }) => (f ?? t ?? []).length)),
    };
  };

  it('shows a stretch of their axis with the samples that lie in it, whatever the text asks for', async () => {
    const over = { axis: 'time', from: 3, to: 3.5 } as const;
    const [trace] = await lookedCloser(engine, looked, [{ cell: 1, line: 1, over }]);
    assert.deepEqual([trace.cell, trace.line], [1, 1]);
    assert.deepEqual(drawn(trace.output).domain, [3, 3.5]);
    const [spectrum] = await lookedCloser(engine, looked, [
      { cell: 2, line: 2, over: { axis: 'frequency', from: 10, to: 95 } },
    ]);
    assert.deepEqual(drawn(spectrum.output).domain, [10, 95]);
  });

  it('shows finer columns of a long recording, and the whole again where no stretch is said', async () => {
    const [whole] = await lookedCloser(engine, looked, [{ cell: 1, line: 1 }]);
    const over = { axis: 'time', from: 3, to: 6 } as const;
    const [closer] = await lookedCloser(engine, looked, [{ cell: 1, line: 1, over }]);
    const [all, part] = [drawn(whole.output), drawn(closer.output)];
    const [from, to] = all.domain as [number, number];
    assert.ok(part.points / 3 > (1.5 * all.points) / (to - from), `${part.points} points in 3 s`);
  });

  it('is of the statement that is named alone, and of charts over another axis not at all', async () => {
    const over = { axis: 'time', from: 3, to: 6 } as const;
    assert.deepEqual(await lookedCloser(engine, looked, [{ cell: 2, line: 1, over }]), []);
    const [spectrum] = await lookedCloser(engine, looked, [{ cell: 2, line: 2, over }]);
    assert.deepEqual(drawn(spectrum.output).domain, [1, 90]);
  });

  it('lasts through a move of a literal', async () => {
    const cells = ['part = load "raw/a.csv" | channel z | trim 2..18 s', 'plot part'];
    const report = await engine.run({ cells, wanted: 'all' }, quietWatch);
    const literal = shown(engine, report.results[1])!.handles![0].ends[1].literal!;
    const closer = [{ cell: 1, line: 1, over: { axis: 'time', from: 3, to: 6 } as const }];
    const { outputs } = await moved(engine, { cells, literal, text: '16.5', wanted: [1], closer });
    assert.deepEqual(drawn(outputs[0].output).domain, [3, 6]);
  });
});

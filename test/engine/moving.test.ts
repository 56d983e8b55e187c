import { strict as assert } from 'node:assert';
import { Engine } from '../../src/engine/engine.ts';
import { moved, shown } from '../../src/engine/moving.ts';
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

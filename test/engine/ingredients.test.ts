import { strict as assert } from 'node:assert';
import { Engine } from '../../src/engine/engine.ts';
import { Origins, type Change } from '../../src/engine/ingredients.ts';
import { MemoryHost, recording } from './memoryFiles.ts';

const study = [
  '# Foam on bricks\nbricks = load "raw/a *.csv" | channel z | trim 2..18 s',
  'S = bricks | lowpass 80 Hz | spectrum',
  'k = 3 N/mm\nk / 4',
];
const host = (): MemoryHost =>
  new MemoryHost({ 'raw/a 1.csv': recording({ seed: 1 }), 'raw/a 2.csv': recording({ seed: 2 }) });

/** What the reader counts the cells as, between prose. */
const numbers = [2, 4, 6, 8];

/** What has changed for a cell of the study since its key was taken. */
async function changed(cell: number, edit: (cells: string[], memory: MemoryHost) => void): Promise<readonly Change[]> {
  const memory = host();
  const engine = new Engine(memory);
  const keys = await engine.keys(study);
  const edited = [...study];
  edit(edited, memory);
  const changes = await engine.changes(edited, numbers, new Map([[cell, keys.get(cell)!]]));
  return changes.get(cell)!;
}
const bricks = { cell: { number: 2, remark: 'Foam on bricks' } };

describe('what has changed since a cell was run', () => {
  it('is a step of a cell that it uses, or of its own', async () => {
    const edit = (cells: string[]): void => void (cells[0] = cells[0].replace('2..18', '3..18'));
    assert.deepEqual(await changed(1, edit), [{ what: 'step', verb: 'trim', ...bricks, own: false }]);
    assert.deepEqual(await changed(0, edit), [{ what: 'step', verb: 'trim', ...bricks, own: true }]);
    assert.deepEqual(await changed(2, edit), []);
  });

  it('is the text of a cell where steps came or went, or what is no step', async () => {
    const more = await changed(1, (cells) => (cells[0] += ' | detrend'));
    assert.deepEqual(more, [{ what: 'text', ...bricks, own: false }]);
    const divided = await changed(2, (cells) => (cells[2] = cells[2].replace('/ 4', '/ 5')));
    assert.deepEqual(divided, [{ what: 'text', cell: { number: 6, remark: '' }, own: true }]);
  });

  it('is a raw file whose bytes changed, that came or that went', async () => {
    const file = (edit: (memory: MemoryHost) => void): Promise<readonly Change[]> =>
      changed(1, (_, memory) => edit(memory));
    assert.deepEqual(await file(({ contents }) => contents.set('raw/a 2.csv', recording({ seed: 9 }))), [
      { what: 'file', path: 'raw/a 2.csv' },
    ]);
    assert.deepEqual(await file(({ contents }) => contents.set('raw/a 3.csv', recording({ seed: 9 }))), [
      { what: 'new file', path: 'raw/a 3.csv' },
    ]);
    assert.deepEqual(await file(({ contents }) => contents.delete('raw/a 1.csv')), [
      { what: 'lost file', path: 'raw/a 1.csv' },
    ]);
  });

  it('is told of all that changed, the own cell first, and not of what follows from a change', async () => {
    const changes = await changed(1, (cells) => {
      cells[0] = cells[0].replace('2..18', '3..18');
      cells[1] = cells[1].replace('80 Hz', '90 Hz');
    });
    assert.deepEqual(changes, [
      { what: 'step', verb: 'lowpass', cell: { number: 4, remark: '' }, own: true },
      { what: 'step', verb: 'trim', ...bricks, own: false },
    ]);
    const other = await changed(1, (cells) => {
      cells[1] = 'S = spectrum gel';
      cells.push('gel = load "raw/a 1.csv" | channel z');
    });
    assert.deepEqual(other, [{ what: 'text', cell: { number: 4, remark: '' }, own: true }]);
  });

  it('is a cell whose name is bound no more', async () => {
    const gone = await changed(2, (cells) => (cells[2] = 'k / 4'));
    assert.deepEqual(gone, [{ what: 'text', cell: { number: 6, remark: '' }, own: true }]);
  });

  it('is nothing after comments and blanks, and nothing is known of a key of another engine', async () => {
    assert.deepEqual(await changed(1, (cells) => (cells[0] = cells[0].replace('trim 2', 'trim   2'))), []);
    const keys = await new Engine(host()).keys(study);
    const edited = [study[0].replace('2..18', '3..18'), study[1]];
    const changes = await new Engine(host()).changes(edited, numbers, new Map([[1, keys.get(1)!]]));
    assert.deepEqual([...changes], [[1, []]]);
  });

  it('is remembered of the keys seen last', () => {
    const origins = new Origins(2);
    for (const key of ['a', 'b', 'a', 'c']) origins.note(key, () => []);
    assert.deepEqual([origins.of('a'), origins.of('b'), origins.of('c')], [[], undefined, []]);
    origins.note('d', () => undefined);
    assert.equal(origins.of('d'), undefined);
  });
});

describe('a run of several cells', () => {
  it('tells of each as soon as it is settled, in the order asked for, after what it needs', async () => {
    const told: string[] = [];
    const cells = [...study, 'misspelt =', 'levels bricks'];
    await new Engine(host()).run(
      { cells, wanted: [4, 3, 1] },
      { cancelled: () => false, progress: () => undefined },
      ({ cell }) => told.push(`statement of ${cell}`),
      (cell, ok) => told.push(`${cell} ${ok ? 'well' : 'failed'}`),
    );
    assert.deepEqual(told, [
      'statement of 0',
      '0 well',
      'statement of 4',
      '4 well',
      'statement of 3',
      '3 failed',
      'statement of 1',
      '1 well',
    ]);
  });
});

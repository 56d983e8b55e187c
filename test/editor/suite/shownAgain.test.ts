import { strict as assert } from 'node:assert';
import type { Handle } from '../../../src/charts/handle.ts';
import type { Output } from '../../../src/charts/output.ts';
import { shownAgain, shownBy, type CodeCells } from '../../../src/editor/shownAgain.ts';

const handle = (cell: number): Handle => ({
  name: 'trim',
  where: `cell ${2 * cell + 1}, The ride`,
  axis: 'time',
  ends: [
    {
      word: 'start',
      at: 2,
      literal: {
        cell,
        from: 7,
        to: 8,
        text: '2',
        unit: 's',
        factor: 1,
        origin: 0,
        sign: 1,
        slot: { name: 'ride', verb: 'trim', slot: 'range', entry: 0, part: 0 },
      },
    },
    { word: 'end', at: 18 },
  ],
});
const output: Output = {
  version: 1,
  name: 'ride',
  kind: 'runs',
  parts: [],
  messages: [],
  text: 'ride',
  handles: [handle(0)],
};
const cellsOf = (...texts: readonly string[]): CodeCells => ({ texts, numbers: texts.map((_, at) => 2 * at + 1) });
const texts = ['# The ride\ntrim 2..18 s', 'plot ride'];

describe('what a cell showed', () => {
  it('is the same where no cell was moved', () => {
    assert.deepEqual(shownAgain(shownBy([output], 1, cellsOf(...texts)), 1, cellsOf(...texts)), [output]);
  });

  it('has its literals in the cells where they stand by now', () => {
    const shown = JSON.parse(JSON.stringify(shownBy([output], 1, cellsOf(...texts)))) as ReturnType<typeof shownBy>;
    const [{ handles }] = shownAgain(shown, 0, cellsOf('plot ride', 'k = 3', texts[0]))!;
    assert.deepEqual(handles, [handle(2)]);
  });

  it('has no handle whose cell can not be told any more', () => {
    const [{ handles }] = shownAgain(
      shownBy([output], 1, cellsOf(...texts)),
      1,
      cellsOf('# Another\ntrim 2..18 s', 'plot ride'),
    )!;
    assert.deepEqual(handles, []);
  });

  it('is not shown again elsewhere where it names its place', () => {
    const failed: Output = {
      ...output,
      handles: [],
      messages: [{ severity: 'error', code: 'name.unknown', message: 'There is no k.', where: 'cell 2, line 1' }],
    };
    assert.deepEqual(shownAgain(shownBy([failed], 1, cellsOf(...texts)), 1, cellsOf(...texts)), [failed]);
    assert.equal(shownAgain(shownBy([failed], 1, cellsOf(...texts)), 0, cellsOf(...[...texts].reverse())), undefined);
  });
});

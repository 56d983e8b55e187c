import { strict as assert } from 'node:assert';
import { readingOf } from '../../src/charts/reading.ts';
import type { Message, Part } from '../../src/charts/output.ts';
import { Engine } from '../../src/engine/engine.ts';
import { show } from '../../src/engine/show.ts';
import { MemoryHost, quietWatch } from '../engine/memoryFiles.ts';
import { loadPads, pads, worked, type Pads } from '../verbs/pads.ts';

const text: Part = { type: 'text', text: 'Lower.' };
const table: Part = { type: 'table', caption: '', columns: [], rows: [] };
const warning = (code: string, more: Partial<Message> = {}): Message => ({
  severity: 'warning',
  code,
  message: code,
  ...more,
});

/** How the comparison of two pads is read: what its warnings are called above the answer, and below it. */
async function readPads(made: Pads): Promise<{ above: string[]; below: string[]; text: string }> {
  const engine = new Engine(new MemoryHost(pads(made)));
  const cells = [`${loadPads}compare foam with gel over 10..30 Hz`];
  const { results } = await engine.run({ cells, wanted: 'all' }, quietWatch);
  const output = show(results.at(-1) ?? assert.fail()) ?? assert.fail();
  const { above, below } = readingOf(output);
  return { above: above.map(({ code }) => code), below: below.map(({ code }) => code), text: output.text };
}

describe('the order in which an output is read', () => {
  it('is the answer, then its warnings, then tables and pictures; errors and what withholds a verdict before all', () => {
    const messages = [warning('a'), warning('b', { withholds: true }), warning('c', { severity: 'error' })];
    const { above, answer, below, rest } = readingOf({ parts: [text, text, table, text], messages });
    assert.deepEqual(
      [above.map(({ code }) => code), answer, below.map(({ code }) => code), rest],
      [['b', 'c'], [text, text], ['a'], [table, text]],
    );
    assert.deepEqual(readingOf({ parts: [table, text], messages: [] }).answer, [table, text]);
  });

  it('has warnings of a comparison under its sentence, but above it those for which no verdict is given', async () => {
    const known = await readPads({ ...worked, order: [1, 4, 5, 2, 3, 6] });
    assert.deepEqual([known.above, known.below], [[], ['compare.unplanned']]);
    assert.ok(known.text.indexOf(' was ') < known.text.indexOf('compare.unplanned'));
    assert.ok(known.text.indexOf('compare.unplanned') < known.text.indexOf('[chart]'));
    const apart = await readPads({ ...worked, order: [1, 2, 3, 4, 5, 6] });
    assert.deepEqual([apart.above, apart.below], [['compare.order-apart'], ['compare.unplanned']]);
    const two = await readPads({ a: [0.3, 0.31], b: [0.2, 0.21] });
    assert.deepEqual([two.above, two.below], [['compare.few-runs'], ['compare.unplanned']]);
    const speeds = await readPads({ ...worked, facts: { speed: ['1', '1', '1', '2', '2', '2'] } });
    assert.deepEqual(speeds.above, ['compare.speeds']);
  });
});

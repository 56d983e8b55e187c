import { strict as assert } from 'node:assert';
import { HeldForCharts } from '../../../src/engine/parts/held.ts';
import type { Part } from '../../../src/engine/parts/part.ts';
import type { Run } from '../../../src/values/run.ts';

/** What a recording gave, with samples of so many bytes. */
function partOf(...samples: readonly Float64Array[]): Part {
  const channels = samples.map((own, k) => ({ name: `${k}`, samples: own }));
  return { value: { kind: 'runs', set: undefined, runs: [{ channels } as unknown as Run] }, told: [] };
}

const bytes = (count: number): Float64Array => new Float64Array(count / Float64Array.BYTES_PER_ELEMENT);

describe('samples that are held for charts', () => {
  it('are those of the last recording, however large it is', () => {
    const held = new HeldForCharts();
    held.makeRoom(partOf(bytes(90e6)));
    held.hold('a', partOf(bytes(90e6)));
    assert.ok(held.get('a') !== undefined);
    held.makeRoom(partOf(bytes(8)));
    assert.equal(held.get('a'), undefined);
  });

  it('are those of others beside it as long as there is room, the oldest going first', () => {
    const held = new HeldForCharts();
    const [first, second, third] = [20e6, 20e6, 20e6].map((size) => partOf(bytes(size)));
    for (const [key, part] of [
      ['a', first],
      ['b', second],
      ['c', third],
    ] as const) {
      held.makeRoom(part);
      held.hold(key, part);
    }
    assert.deepEqual([held.get('a'), held.get('b'), held.get('c')], [first, second, third]);
    held.makeRoom(partOf(bytes(10e6)));
    assert.deepEqual([held.get('a'), held.get('b'), held.get('c')], [undefined, second, third]);
  });

  it('count once that several share', () => {
    const held = new HeldForCharts();
    const samples = bytes(40e6);
    held.hold('whole', partOf(samples));
    held.hold('trimmed', partOf(samples.subarray(1000)));
    held.makeRoom(partOf(bytes(20e6)));
    assert.ok(held.get('whole') !== undefined && held.get('trimmed') !== undefined);
  });
});

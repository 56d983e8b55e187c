import { strict as assert } from 'node:assert';
import { Engine } from '../../src/engine/engine.ts';
import { reportJson } from '../../src/engine/json.ts';
import type { PartSizes } from '../../src/readers/recording.ts';
import { MemoryHost, quietWatch, recording } from '../engine/memoryFiles.ts';

/** Three axes with a gap in the middle, of 40 s at 200 Hz. */
export function withGap(seed = 5): string {
  const lines = recording({ seconds: 40, seed }).split('\n');
  return lines.filter((_, line) => line < 3100 || line > 3400).join('\n');
}

/** A host whose files are read part by part, as on a machine with little memory. */
export class SmallHost extends MemoryHost {
  constructor(sizes: PartSizes, contents: Record<string, string>) {
    super(contents);
    const { open } = this.files;
    Object.assign(this.files, {
      open: async (path: string) => ({ ...(await open(path)), sizes }),
    });
  }
}

export const sizes: PartSizes = { from: 50_000, part: 30_000, most: 6000 };

/** What cells give, as JSON. */
export async function statements(host: MemoryHost, cells: readonly string[]): Promise<unknown> {
  const report = await new Engine(host).run({ cells, wanted: 'all' }, quietWatch);
  const lines = cells.map((_, cell) => ({ line: cell + 1 }));
  return JSON.parse(JSON.stringify(reportJson('long', lines, report)));
}

/** Largest relative difference of two results' numbers; all else must be the same. */
export function difference(a: unknown, b: unknown, path: string): number {
  if (typeof a === 'number' && typeof b === 'number')
    return a === b ? 0 : Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b));
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) {
    assert.equal(b, a, path);
    return 0;
  }
  const [one, other] = [a, b] as Record<string, unknown>[];
  assert.deepEqual(Object.keys(other), Object.keys(one), path);
  return Math.max(0, ...Object.keys(one).map((key) => difference(one[key], other[key], `${path}/${key}`)));
}

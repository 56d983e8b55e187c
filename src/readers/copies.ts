import { powerOf } from '../numbers/power.ts';
import { log2Of } from '../numbers/logarithm.ts';

/**
 * Which rows say exactly what a row before them says, wherever that stands. Rows are found by a hash of their values in
 * a table of open addresses, so that millions of them cost no objects.
 *
 * @param columns all of one length
 */
export function copiesOf(columns: readonly Float64Array[]): Uint8Array {
  const rows = columns[0]?.length ?? 0;
  const copies = new Uint8Array(rows);
  const slots = new Int32Array(powerOf(2, Math.ceil(log2Of(2 * rows + 2))));
  const parts = columns.map((values) => new Uint32Array(values.buffer, values.byteOffset, 2 * values.length));
  const same = (a: number, b: number): boolean =>
    parts.every((words) => words[2 * a] === words[2 * b] && words[2 * a + 1] === words[2 * b + 1]);
  for (let row = 0; row < rows; row++) {
    let slot = hashOf(parts, row) & (slots.length - 1);
    // A slot holds the number of a row plus one; nothing where it is free.
    while (slots[slot] !== 0 && !same(slots[slot] - 1, row)) slot = (slot + 1) & (slots.length - 1);
    if (slots[slot] === 0) slots[slot] = row + 1;
    else copies[row] = 1;
  }
  return copies;
}

/** FNV-1a over the words of a row, with its bits mixed at the end (Appleby's finaliser). */
function hashOf(parts: readonly Uint32Array[], row: number): number {
  let hash = 0x811c9dc5;
  for (const words of parts) {
    hash = Math.imul(hash ^ words[2 * row], 0x01000193);
    hash = Math.imul(hash ^ words[2 * row + 1], 0x01000193);
    hash ^= hash >>> 15;
  }
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return (hash ^ (hash >>> 16)) >>> 0;
}

/**
 * Rows that were sent again: behind a stamp that has been before, and copies of an earlier row. Rows that share the
 * latest stamp are fresh, unless they go on from one that was sent again.
 *
 * @param stamps of the rows, none empty
 * @param columns their stamps and readings
 */
export function rowsSentAgain(stamps: Float64Array, columns: readonly Float64Array[]): Uint8Array {
  const copies = copiesOf(columns);
  const again = new Uint8Array(stamps.length);
  let latest = -Infinity;
  for (let row = 0; row < stamps.length; row++) {
    const isBehind = stamps[row] < latest || (stamps[row] === latest && again[row - 1] === 1);
    if (isBehind && copies[row] === 1) again[row] = 1;
    latest = Math.max(latest, stamps[row]);
  }
  return again;
}

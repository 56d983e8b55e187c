/** Bytes that are handed out again; what is asked for beyond is fresh memory, so that a large recording goes as it came. */
const most = 48e6;
/** How many times as large as what is asked for a room may be. */
const roomiest = 4;

/** Memory that nobody uses, and what was handed out since it was last taken back. */
interface Rooms {
  readonly free: ArrayBuffer[];
  readonly taken: ArrayBuffer[];
  /** Of both together. */
  bytes: number;
}

let rooms: Rooms | undefined;

/**
 * Hands memory out again from now on: memory that was written to before is far quicker than fresh memory, and leaves less
 * to be collected. For a thread that reads one recording at a time and keeps nothing of it.
 */
export function reuseRooms(): void {
  rooms ??= { free: [], taken: [], bytes: 0 };
}

/** Takes back all that was handed out: nobody may look at it any more. */
export function takeRoomsBack(): void {
  // What was used last is the likeliest to fit.
  if (rooms !== undefined) rooms.free.unshift(...rooms.taken.splice(0));
}

/** Room for so many numbers, in which anything may stand. */
export function roomForNumbers(count: number): Float64Array {
  const room = roomOf(8 * count);
  return room === undefined ? new Float64Array(count) : new Float64Array(room, 0, count);
}

/** A copy of bytes. */
export function copyInRoom(bytes: Uint8Array): Uint8Array {
  const room = roomOf(bytes.length);
  if (room === undefined) return bytes.slice();
  const copy = new Uint8Array(room, 0, bytes.length);
  copy.set(bytes);
  return copy;
}

function roomOf(bytes: number): ArrayBuffer | undefined {
  if (rooms === undefined) return undefined;
  const { free, taken } = rooms;
  const found = free.findIndex(({ byteLength }) => byteLength >= bytes && byteLength <= roomiest * bytes);
  if (found >= 0) taken.push(...free.splice(found, 1));
  else {
    // A little more, so that the next recording fits that is a little longer.
    const fresh = 8 * Math.ceil((1.05 * bytes) / 8);
    // Rooms that fit nothing any more make way.
    while (rooms.bytes + fresh > most && free.length > 0) rooms.bytes -= free.pop()!.byteLength;
    if (rooms.bytes + fresh > most) return undefined;
    rooms.bytes += fresh;
    taken.push(new ArrayBuffer(fresh));
  }
  return taken[taken.length - 1];
}

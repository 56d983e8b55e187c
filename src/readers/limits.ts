/** What a file may hold at most, so that a hostile or damaged one is refused and not run out of memory on. */
export const limits = {
  columns: 4096,
  /** Longest line in bytes. */
  line: 1 << 20,
  /** Samples of all columns together; each takes 8 bytes. */
  samples: 400_000_000,
  /** A compressed file may grow to so many bytes … */
  expanded: 4 * 2 ** 30,
  /** … and, once past `expandedFree`, to so many times its own size. */
  expansion: 200,
  expandedFree: 64 * 2 ** 20,
  /** Compressed bytes unpacked at a time, few, for they may grow a thousandfold before the growth is looked at. */
  packed: 32 * 1024,
  /**
   * Bytes of numbers in memory from which a recording is read part by part (about as many as `samples` take: what a whole
   * reading can hold is read whole, for all verbs take it), bytes of a text that make a part, and numbers that a part of it may
   * have that is taken into memory.
   */
  parts: { from: 3 * 2 ** 30, part: 32 * 2 ** 20, most: 32_000_000 },
  /** Different texts that a label column may hold before it is only text. */
  labels: 256,
  /** Bytes looked at to find the layout. */
  head: 256 * 1024,
  /** Bytes read at a time. */
  piece: 2 * 2 ** 20,
} as const;

/** Whether `packed` bytes that grow to `expanded` are more than a recording would. */
export const unfoldsTooFar = (expanded: number, packed: number): boolean =>
  expanded > limits.expanded || (expanded > limits.expandedFree && expanded > limits.expansion * Math.max(packed, 1));

/** The parts of a value in short, without those that there are not: `2 runs · x, y, z in g · 200 Hz`. */
export const inShort = (...parts: readonly (string | undefined)[]): string =>
  parts.filter((part) => part !== undefined && part !== '').join(' · ');

/** Each once, in the order in which they come. */
export const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

/** Beyond so many names nobody reads a sentence on. */
const mostNames = 40;

/**
 * Names in a sentence: `a`, `a and b`, `a, b and c`; beyond `most` of them, `a, b and 7 more`.
 * @param written how each name that is told is written
 */
export function listed(
  names: readonly string[],
  last = 'and',
  most = mostNames,
  written = (name: string): string => name,
): string {
  const first = names.slice(0, names.length > most ? most - 1 : undefined).map(written);
  const shown = first.length < names.length ? [...first, `${names.length - first.length} more`] : first;
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(', ')} ${last} ${shown[shown.length - 1]}`;
}

/** Of runs, files and whatever else a study may have thousands of, the first few show which are meant. */
export const fewNames = 8;

/** The same of what there may be very many of: beyond a few `a, b and 997 more`. */
export const listedInFew = (names: readonly string[], last = 'and'): string => listed(names, last, fewNames);

/** `1 run`, `3 runs`. */
export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

/** `both bands`, `all 3 bands`. */
export const allOf = (count: number, many: string): string => (count === 2 ? `both ${many}` : `all ${count} ${many}`);

/** With its first letter as a capital. */
export const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The day, in UTC, of a time in s since 1970: `2026-05-01`. */
export const dayOf = (seconds: number): string => new Date(1000 * seconds).toISOString().slice(0, 10);

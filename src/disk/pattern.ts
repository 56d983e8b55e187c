/** Whether a pattern has `*` or `?`. */
export const isPattern = (path: string): boolean => /[*?]/.test(path);

/** One folder level of a pattern as an expression: `*` is any number of characters, `?` exactly one. */
export function levelExpression(level: string): RegExp {
  const escaped = level
    .replace(/[.+^${}()|[\]\\]/g, '\\$&')
    .replace(/\*+/g, '.*')
    .replace(/\?/g, '.');
  // A name may hold a line end, too.
  return new RegExp(`^${escaped}$`, 'us');
}

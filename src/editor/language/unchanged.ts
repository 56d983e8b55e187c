import type { CheckedNotebook } from '../../language/check.ts';

/**
 * Whether a name stands for the same text now as it did then: its own statement's, and those of all names it is made
 * of. What was known of its value then still holds, as far as the raw files are the same.
 */
export function standsUnchanged(name: string, then: CheckedNotebook, now: CheckedNotebook): boolean {
  if (then === now) return then.bindings.has(name);
  const seen = new Set<string>();
  const same = (one: string): boolean => {
    if (seen.has(one)) return true;
    seen.add(one);
    const [before, after] = [then, now].map((notebook) => statementOf(one, notebook));
    return after !== undefined && before?.text === after.text && after.uses.every(same);
  };
  return same(name);
}

function statementOf(name: string, notebook: CheckedNotebook): { text: string; uses: readonly string[] } | undefined {
  const index = notebook.bindings.get(name);
  if (index === undefined) return undefined;
  const { cell, place, uses } = notebook.statements[index];
  return { text: notebook.cells[cell].text.slice(place.from, place.to), uses };
}

import type { CheckedNotebook } from '../language/check.ts';

/** The indices of a cell and of all cells that use what it binds, directly or not, in rising order. */
export function dependentsOf({ statements }: CheckedNotebook, cell: number): readonly number[] {
  const cells = new Set([cell]);
  const names = new Set(
    statements.flatMap(({ cell: at, name }) => (at === cell && name !== undefined ? [name.text] : [])),
  );
  for (let known = -1; known !== names.size + cells.size;) {
    known = names.size + cells.size;
    for (const { cell: at, name, uses } of statements) {
      if (!uses.some((used) => names.has(used))) continue;
      cells.add(at);
      if (name !== undefined) names.add(name.text);
    }
  }
  return [...cells].sort((a, b) => a - b);
}

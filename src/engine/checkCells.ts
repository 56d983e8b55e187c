import { checkNotebook, type CheckedNotebook } from '../language/check.ts';
import { catalogue } from '../verbs/catalogue.ts';

/**
 * The cells of a notebook, parsed and held against the verbs' forms.
 * @param numbers what a reader counts each cell as
 * @param before the same notebook before an edit, of which what the edit does not touch is taken over
 */
export function checkCells(
  cells: readonly string[],
  before?: CheckedNotebook,
  numbers?: readonly number[],
): CheckedNotebook {
  const same = before?.cells.length === cells.length && cells.every((text, i) => before.cells[i].text === text);
  if (same && (numbers === undefined || numbers.every((number, i) => before.numbers[i] === number))) return before;
  return checkNotebook(cells, catalogue, before, numbers);
}

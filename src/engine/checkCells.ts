import { checkNotebook, type CheckedNotebook } from '../language/check.ts';
import { catalogue } from '../verbs/language.ts';

/**
 * The cells of a notebook, parsed and held against the verbs' forms.
 * @param before the same notebook before an edit, of which what the edit does not touch is taken over
 */
export function checkCells(cells: readonly string[], before?: CheckedNotebook): CheckedNotebook {
  if (before?.cells.length === cells.length && cells.every((text, i) => before.cells[i].text === text)) return before;
  return checkNotebook(cells, catalogue, before);
}

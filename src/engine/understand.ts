import { checkNotebook, type CheckedNotebook } from '../language/check.ts';
import { catalogue } from '../verbs/language.ts';

/** The cells of a notebook, parsed and held against the verbs' forms. */
export function understand(cells: readonly string[]): CheckedNotebook {
  return checkNotebook(cells, catalogue);
}

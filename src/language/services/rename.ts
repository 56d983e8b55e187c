import { success, type Result } from '../../result/result.ts';
import { cellNameOf } from '../cellName.ts';
import { isName, reservedAs, type CheckedNotebook } from '../check.ts';
import { refuse } from '../messages.ts';
import type { Place } from '../diagnostic.ts';
import { nameAt } from './occurrenceAt.ts';
import { referencesTo } from './references.ts';

export interface CellEdit {
  readonly cell: number;
  readonly place: Place;
  readonly text: string;
}

/** The name at a place that could be renamed. */
export function renamableAt(
  notebook: CheckedNotebook,
  cell: number,
  offset: number,
): { readonly name: string; readonly place: Place } | undefined {
  const occurrence = nameAt(notebook, cell, offset);
  return occurrence && { name: occurrence.name, place: occurrence.place };
}

/**
 * Renames the name at a place across all cells; undefined where there is none, refused where the new name would clash.
 */
export function renameAt(
  notebook: CheckedNotebook,
  cell: number,
  offset: number,
  to: string,
): Result<readonly CellEdit[]> | undefined {
  const name = nameAt(notebook, cell, offset)?.name;
  if (name === undefined) return undefined;
  if (!isName(to)) return refuse('name.letters', { name: to });
  const what = reservedAs(to, notebook.vocabulary);
  if (what) return refuse('name.reserved', { name: to, what });
  const other = notebook.bindings.get(to);
  if (other !== undefined && to !== name) {
    const { cell: at, line } = notebook.statements[other];
    return refuse('name.twice', { name: to, cell: cellNameOf(notebook, at), line, same: at === cell });
  }
  return success(referencesTo(notebook, name).map(({ cell: at, place }) => ({ cell: at, place, text: to })));
}

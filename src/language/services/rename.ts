import { isName, reservedAs, type CheckedNotebook } from '../check.ts';
import { tell } from '../messages.ts';
import type { Place } from '../diagnostic.ts';
import { nameAt } from './mentionAt.ts';
import { referencesTo } from './references.ts';

export interface CellEdit {
  readonly cell: number;
  readonly place: Place;
  readonly text: string;
}

export type Renamed =
  { readonly ok: true; readonly edits: readonly CellEdit[] } | { readonly ok: false; readonly message: string };

/** The name at a place that could be renamed. */
export function renamableAt(
  notebook: CheckedNotebook,
  cell: number,
  offset: number,
): { readonly name: string; readonly place: Place } | undefined {
  const mention = nameAt(notebook, cell, offset);
  return mention && { name: mention.name, place: mention.place };
}

/** Renames across all cells; refused in one sentence where the new name would clash. */
export function renameAt(notebook: CheckedNotebook, cell: number, offset: number, to: string): Renamed {
  const name = nameAt(notebook, cell, offset)?.name;
  if (name === undefined) return { ok: false, message: 'Only a name that a statement binds can be renamed.' };
  if (!isName(to)) return { ok: false, message: tell('name.letters', { name: to }).message };
  const what = reservedAs(to, notebook.vocabulary);
  if (what) return { ok: false, message: tell('name.reserved', { name: to, what }).message };
  const other = notebook.bindings.get(to);
  if (other !== undefined && to !== name) {
    const { cell: at, line } = notebook.statements[other];
    return { ok: false, message: tell('name.twice', { name: to, cell: at + 1, line, same: at === cell }).message };
  }
  return {
    ok: true,
    edits: referencesTo(notebook, name).map(({ cell: at, place }) => ({ cell: at, place, text: to })),
  };
}

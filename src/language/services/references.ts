import type { CheckedNotebook } from '../check.ts';
import type { Place } from '../diagnostic.ts';
import { nameAt } from './occurrenceAt.ts';

export interface Location {
  readonly cell: number;
  readonly place: Place;
  /** Whether the name is bound there. */
  readonly binds: boolean;
}

/** Where the name at a place is bound: the first statement that does. */
export function definitionAt(notebook: CheckedNotebook, cell: number, offset: number): Location | undefined {
  const name = nameAt(notebook, cell, offset)?.name;
  const index = name === undefined ? undefined : notebook.bindings.get(name);
  if (index === undefined) return undefined;
  const statement = notebook.statements[index];
  return { cell: statement.cell, place: statement.name!.place, binds: true };
}

/** Everywhere in the notebook that the name at a place stands, in text order. */
export function referencesAt(notebook: CheckedNotebook, cell: number, offset: number): readonly Location[] {
  const name = nameAt(notebook, cell, offset)?.name;
  return name === undefined ? [] : referencesTo(notebook, name);
}

export function referencesTo(notebook: CheckedNotebook, name: string): readonly Location[] {
  return notebook.occurrences
    .flatMap((occurrence) =>
      (occurrence.role === 'name' || occurrence.role === 'definition') && occurrence.name === name
        ? [{ cell: occurrence.cell, place: occurrence.place, binds: occurrence.role === 'definition' }]
        : [],
    )
    .sort((a, b) => a.cell - b.cell || a.place.from - b.place.from);
}

/** Those of the same cell. */
export const highlightsAt = (notebook: CheckedNotebook, cell: number, offset: number): readonly Location[] =>
  referencesAt(notebook, cell, offset).filter((location) => location.cell === cell);

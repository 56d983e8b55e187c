import type { CheckedNotebook } from '../check.ts';
import { describeKind } from '../describe.ts';
import type { Place } from '../diagnostic.ts';

export interface BoundSymbol {
  readonly name: string;
  /** `a spectrum`; empty where it cannot be told. */
  readonly detail: string;
  /** The whole statement. */
  readonly place: Place;
  /** The name alone. */
  readonly namePlace: Place;
}

/** The names that a cell binds, for outline and breadcrumbs. */
export function symbolsOf(notebook: CheckedNotebook, cell: number): readonly BoundSymbol[] {
  return notebook.statements.flatMap((statement) =>
    statement.cell === cell && statement.name
      ? [
          {
            name: statement.name.text,
            detail: statement.kind ? describeKind(statement.kind, notebook.vocabulary.kinds) : '',
            place: statement.place,
            namePlace: statement.name.place,
          },
        ]
      : [],
  );
}

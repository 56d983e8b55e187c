import type { TextEdit } from '../charts/handle.ts';
import type { Choice, StatementAt } from '../charts/making.ts';
import type { Engine } from './engine.ts';
import { unwatched } from './host.ts';

/** Something to be made of a stretch of a chart; `statement.cell` is its cell's index among the cells. */
export interface MakeOrder {
  /** The notebook's code cells as they are now. */
  readonly cells: readonly string[];
  readonly statement: StatementAt;
  readonly choice: Choice;
}

/** Edits of the text or a new cell below another, or why there are none. */
export interface MadeText {
  readonly edits: readonly TextEdit[];
  readonly below?: { readonly cell: number; readonly text: string };
  readonly refusal?: string;
}

/** Writes what is made of a stretch; the text itself is for the caller to change. */
export async function made(engine: Engine, order: MakeOrder): Promise<MadeText> {
  const found = await engine.make(order.cells, order.statement, order.choice, unwatched);
  return found.ok ? found.value : { edits: [], refusal: found.failure.message };
}

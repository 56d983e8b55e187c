import type { Literal, TextEdit } from '../charts/handle.ts';
import type { Display } from '../charts/display.ts';
import type { Output } from '../charts/output.ts';
import type { AxisRange } from '../charts/making.ts';
import { shownOver } from '../charts/closer.ts';
import type { Engine } from './engine.ts';
import { unwatched } from './host.ts';
import type { StatementResult } from './result.ts';
import { show } from './show.ts';

/** A literal to be moved; `literal.cell` is its cell's index among the cells. */
export interface MoveOrder {
  /** The notebook's code cells as they are now. */
  readonly cells: readonly string[];
  readonly literal: Literal;
  /** The number as it is to stand. */
  readonly text: string;
  /** Cells to run on the changed text, so far as they depend on the literal's. */
  readonly wanted: readonly number[];
  /** Statements whose charts are looked at closer. */
  readonly closer?: readonly Closer[];
}

/** A statement of which a stretch of the axis is looked at; all of it unless said. */
export interface Closer {
  readonly cell: number;
  /** 1-based, within the cell. */
  readonly line: number;
  readonly over?: AxisRange;
}

/** What moving a literal gives: the change of the text, or why there is none. */
export interface Moved {
  readonly edit?: TextEdit;
  readonly refusal?: string;
  /** Of the wanted cells, in the order of the text. */
  readonly outputs: readonly CellOutput[];
}

export interface CellOutput {
  readonly cell: number;
  /** The statement's, within its cell. */
  readonly line: number;
  readonly output: Output;
}

/** Moves a literal, and runs those of the wanted cells that depend on it on the changed text; the text itself is for the caller to change. */
export async function moved(
  engine: Engine,
  { cells, literal, text, wanted, closer = [] }: MoveOrder,
  display: Display = {},
): Promise<Moved> {
  const edit = engine.rewrite(cells, literal, text);
  if (!edit.ok) return { refusal: edit.failure.message, outputs: [] };
  const changed = cells.map((cell, index) => (index === edit.value.cell ? edited(cell, edit.value) : cell));
  const outputs: CellOutput[] = [];
  const dependents = wanted.length === 0 ? [] : engine.dependents(changed, edit.value.cell);
  const following = wanted.filter((cell) => dependents.includes(cell));
  if (following.length > 0)
    await engine.run({ cells: changed, wanted: following }, unwatched, (result) => {
      if (!following.includes(result.cell)) return;
      const output = shownOver(closerAt(result, closer)?.over, () => shown(engine, result, display));
      if (output !== undefined) outputs.push({ cell: result.cell, line: result.line, output });
    });
  return { edit: edit.value, outputs };
}

/** Shows the statements' charts over stretches of their axes; what has changed since they were run is run first. */
export async function lookedCloser(
  engine: Engine,
  cells: readonly string[],
  closer: readonly Closer[],
  display: Display = {},
): Promise<readonly CellOutput[]> {
  const outputs: CellOutput[] = [];
  const wanted = [...new Set(closer.map(({ cell }) => cell))];
  await engine.run({ cells, wanted }, unwatched, (result) => {
    const found = closerAt(result, closer);
    const output = found && shownOver(found.over, () => shown(engine, result, display));
    if (output !== undefined) outputs.push({ cell: result.cell, line: result.line, output });
  });
  return outputs;
}

/** The closer look at a statement's charts, if there is one. */
const closerAt = ({ cell, line }: StatementResult, closer: readonly Closer[]): Closer | undefined =>
  closer.find((one) => one.cell === cell && one.line === line);

/** What a statement shows where its literals can be written. */
export function shown(engine: Engine, result: StatementResult, display: Display = {}): Output | undefined {
  const output = show(result, display);
  if (output?.parts.some((part) => part.type === 'chart' && part.axis !== undefined) !== true) return output;
  const [handles, making] = [engine.handles(result), engine.makings(result)];
  return { ...output, ...(handles.length === 0 ? {} : { handles }), ...making };
}

/** A text with a change made in it. */
const edited = (text: string, { from, to, text: made }: TextEdit): string =>
  `${text.slice(0, from)}${made}${text.slice(to)}`;

import type { Choice, Making, StatementAt } from '../../charts/making.ts';
import { cellNameOf, cellWords } from '../../language/cellName.ts';
import type { CheckedNotebook } from '../../language/check.ts';
import type { CheckedStatement } from '../../language/checked.ts';
import { success, type Result } from '../../result/result.ts';
import type { Value } from '../../values/value.ts';
import { checkCells } from '../checkCells.ts';
import { refuse } from '../messages.ts';
import type { TextChange } from './change.ts';
import { waysOf } from './ways.ts';

/** What can be made of stretches of the charts of a statement's value. */
export function makingsOf(notebook: CheckedNotebook, statement: CheckedStatement, value: Value): readonly Making[] {
  return waysOf(notebook, statement, value).map(({ what, axis, sets, cell, locked }) => ({
    what,
    axis,
    where: cell === undefined ? '' : cellWords(cellNameOf(notebook, cell)),
    ...(sets === undefined ? {} : { sets }),
    ...(locked === undefined ? {} : { locked }),
  }));
}

/** A statement as it stands. */
export const statementAt = ({ cells }: CheckedNotebook, { cell, line, place }: CheckedStatement): StatementAt => ({
  cell,
  line,
  text: cells[cell].text.slice(place.from, place.to),
});

/** The statement that stood there, on its line or, if the text around it was edited, where its text stands by now. */
export function statementFrom(
  notebook: CheckedNotebook,
  { cell, line, text }: StatementAt,
): CheckedStatement | undefined {
  const alike = notebook.statements.filter(
    (one) => one.cell === cell && statementAt(notebook, one).text === text && one.expression !== undefined,
  );
  return alike.find((one) => one.line === line) ?? (alike.length === 1 ? alike[0] : undefined);
}

/**
 * The change of the text that makes something of a stretch of a chart.
 * @param value the statement's
 * @returns a refusal where the statement has no such way, a plan settled it, or the text would have an error afterwards
 */
export function madeText(
  notebook: CheckedNotebook,
  statement: CheckedStatement,
  value: Value,
  choice: Choice,
): Result<TextChange> {
  const way = waysOf(notebook, statement, value).find(
    ({ what, axis, sets }) =>
      what === choice.what && axis === choice.axis && (sets === undefined || sets.includes(choice.set)),
  );
  if (way === undefined) return refuse('making.gone', {});
  if (way.locked !== undefined) return refuse('making.locked', { why: way.locked });
  const change = choice.what === 'mark' || choice.to - choice.from >= choice.grain ? way.write(choice) : undefined;
  if (change === undefined) return refuse('making.short', { what: choice.what });
  const problem = problemOf(notebook, change);
  return problem === undefined ? success(change) : refuse('making.unfit', { problem });
}

/** What would be wrong with the text after a change. */
function problemOf(notebook: CheckedNotebook, { edits, below }: TextChange): string | undefined {
  const texts = notebook.cells.map(({ text }) => text);
  const before = errorsIn(notebook);
  // From the end, so that the places of the others stay where they are.
  for (const { cell, from, to, text } of [...edits].sort((a, b) => b.from - a.from))
    texts[cell] = `${texts[cell].slice(0, from)}${text}${texts[cell].slice(to)}`;
  if (below !== undefined) texts.splice(below.cell + 1, 0, below.text);
  const after = errorsIn(checkCells(texts));
  return after.find((message) => !before.includes(message));
}

const errorsIn = ({ problems }: CheckedNotebook): string[] =>
  problems.flat().flatMap(({ severity, message }) => (severity === 'error' ? [message] : []));

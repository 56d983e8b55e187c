import type { Token } from './tokens.ts';
import type { Cell, Statement } from './tree.ts';

const indent = '  ';

/**
 * Canonical text of a cell: one blank between pieces, none inside units, ranges and calls; the author's line breaks
 * within a statement stay, a pipe moving to the beginning of its line; at most one blank line between statements;
 * comments stay where they are. A statement whose form is wrong is left as it stands.
 */
export function printCell(cell: Cell): string {
  const lines: string[] = [];
  const { comments } = cell;
  /** The first comment that is not printed. */
  let next = 0;
  let end = 0;
  const gap = (from: number): void => {
    if (lines.length > 0 && (cell.text.slice(end, from).match(/\r\n|\n|\r/g) ?? []).length > 1) lines.push('');
  };
  const flush = (before: number): void => {
    for (; next < comments.length && comments[next].from < before; next++) {
      const comment = comments[next];
      const trails = lines.length > 0 && end > 0 && !/[\r\n]/.test(cell.text.slice(end, comment.from));
      if (trails) lines[lines.length - 1] += ` ${comment.text.trimEnd()}`;
      else {
        gap(comment.from);
        lines.push(comment.text.trimEnd());
      }
      end = comment.to;
    }
  };
  for (const statement of cell.statements) {
    flush(statement.place.from);
    gap(statement.place.from);
    const first = next;
    while (next < comments.length && comments[next].from < statement.place.to) next++;
    const inside = comments.slice(first, next);
    const printed =
      statement.found.length === 0 ? printStatement(statement, inside, cell.text) : asItStands(statement, cell.text);
    for (const line of printed) lines.push(line);
    end = statement.place.to;
  }
  flush(Infinity);
  return lines.join(cell.text.includes('\r\n') ? '\r\n' : '\n');
}

const asItStands = ({ place }: Statement, text: string): readonly string[] =>
  text
    .slice(place.from, place.to)
    .split(/\r\n|\n|\r/)
    .map((line) => line.trimEnd());

function printStatement({ pieces }: Statement, comments: readonly Token[], text: string): readonly string[] {
  const lines: string[] = [''];
  let next = 0;
  let last: Token | undefined;
  for (const { token, tight } of pieces) {
    const pipe = isSign(token, '|');
    let breaks = last !== undefined && hasBreak(text.slice(last.to, token.from));
    let commented = false;
    for (; last && next < comments.length && comments[next].from < token.from; next++) {
      const comment = comments[next];
      const trails = !commented && !hasBreak(text.slice(last.to, comment.from));
      if (trails) lines[lines.length - 1] += ` ${comment.text.trimEnd()}`;
      else lines.push(indent + comment.text.trimEnd());
      commented = true;
    }
    // A pipe at the end of a line moves to the beginning of the next, unless a comment stands between.
    if (last && isSign(last, '|')) breaks = false;
    if (pipe && breaksAfter(token, text)) breaks = true;
    if (breaks || commented) lines.push((closes(token) ? '' : indent) + token.text);
    else lines[lines.length - 1] += (last && !joins(last, token, tight) ? ' ' : '') + token.text;
    last = token;
  }
  return lines;
}

const hasBreak = (text: string): boolean => /[\r\n]/.test(text);

const isSign = ({ kind, text }: Token, sign: string): boolean => kind === 'sign' && text === sign;

const breaksAfter = (token: Token, text: string): boolean =>
  /^[^\S\r\n]*(?:#[^\r\n]*)?[\r\n]/.test(text.slice(token.to));

const closes = (token: Token): boolean => isSign(token, ')') || isSign(token, ']');

const opens = (token: Token): boolean => isSign(token, '(') || isSign(token, '[');

const joins = (last: Token, token: Token, tight: boolean): boolean =>
  tight || opens(last) || closes(token) || isSign(token, ',');

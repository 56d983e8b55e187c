import { statementsOf } from './lines.ts';
import type { Diagnostic, Place } from './diagnostic.ts';
import { StatementParser } from './statement.ts';
import { sparely } from './sparely.ts';
import { tokenize, type Token } from './tokens.ts';
import type { Cell, Piece, Pipeline, Statement } from './tree.ts';
import { reporter } from './messages.ts';
import type { Vocabulary } from './vocabulary.ts';

/** Statements of one cell that are read: more is no honest text. */
const mostOfCell = 10_000;
/** Statements of all cells of a notebook that are read. */
export const mostOfNotebook = 20_000;

/**
 * Reads a cell. Never throws: what is missing or stray is a node and a diagnostic, and the rest of the cell is read all
 * the same.
 * @param left statements that may still be read of the notebook
 */
export function parseCell(text: string, vocabulary: Vocabulary, left: number = mostOfNotebook): Cell {
  const most = Math.min(left, mostOfCell);
  const { groups, comments, rest } = groupsOf(text, most);
  const found: Diagnostic[] = [];
  const report = reporter(found);
  const statements: Statement[] = [];
  const lines = lineCounter(text);
  for (const group of groups) {
    const before = found.length;
    const { name, pipeline, pieces } = new StatementParser(group, vocabulary, report).statement();
    const place: Place = { from: group[0].from, to: group[group.length - 1].to };
    statements.push({ place, line: lines(place.from), name, pipeline, pieces, found: sparely(found.slice(before)) });
  }
  if (rest !== undefined) {
    const before = found.length;
    const { from, to, first } = rest;
    report(
      'syntax.long',
      first,
      left < mostOfCell ? { of: 'notebook', most: mostOfNotebook } : { of: 'cell', most: mostOfCell },
    );
    const nowhere = { from, to: from };
    const pipeline: Pipeline = { place: nowhere, steps: [{ type: 'missing', place: nowhere, expected: 'step' }] };
    const unread: Piece = { token: { kind: 'bad', from, to, text: text.slice(from, to) }, tight: false };
    const line = lines(from);
    statements.push({
      place: { from, to },
      line,
      name: undefined,
      pipeline,
      pieces: [unread],
      found: found.slice(before),
    });
  }
  return {
    text,
    statements: sparely(statements),
    comments: sparely(comments),
    found: sparely(found),
    whole: rest === undefined,
  };
}

interface Groups {
  /** The tokens of each statement that is read. */
  readonly groups: readonly (readonly Token[])[];
  readonly comments: readonly Token[];
  /** What stands beyond them, and its first token: not even its pieces are told apart. */
  readonly rest: (Place & { readonly first: Place }) | undefined;
}

/** The statements of a text, as far as they are read: no more lines are taken apart than it needs to find these. */
function groupsOf(text: string, most: number): Groups {
  for (let lines = 2 * Math.max(most, 1); ; lines *= 2) {
    const tokens = tokenize(text, lines);
    const groups = statementsOf(tokens);
    const beyond = groups.at(most)?.[0];
    const comments = tokens.filter(({ kind }) => kind === 'comment');
    if (beyond !== undefined) {
      const { from, to } = beyond;
      return {
        groups: groups.slice(0, most),
        comments: comments.filter((comment) => comment.from < from),
        rest: { from, to: from + text.slice(from).trimEnd().length, first: { from, to } },
      };
    }
    const isAll = (tokens.at(-1)?.to ?? 0) >= text.trimEnd().length;
    if (isAll) return { groups, comments, rest: undefined };
  }
}

/** Line number, from 1, of offsets asked in rising order. */
function lineCounter(text: string): (offset: number) => number {
  let line = 1;
  let at = 0;
  return (offset) => {
    for (; at < offset; at++) {
      if (text[at] === '\n' || (text[at] === '\r' && text[at + 1] !== '\n')) line++;
    }
    return line;
  };
}

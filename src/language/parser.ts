import { statementsOf } from './lines.ts';
import type { Diagnostic, Place } from './diagnostic.ts';
import { StatementParser } from './statement.ts';
import { tokenize } from './tokens.ts';
import type { Cell, Statement } from './tree.ts';
import { reporter } from './messages.ts';
import type { Vocabulary } from './vocabulary.ts';

/** Statements of one cell that are read: more is no honest text. */
const mostStatements = 10_000;

/**
 * Reads a cell. Never throws: what is missing or stray is a node and a diagnostic, and the rest of the cell is read all
 * the same.
 */
export function parseCell(text: string, vocabulary: Vocabulary): Cell {
  const tokens = tokenize(text);
  const found: Diagnostic[] = [];
  const report = reporter(found);
  const statements: Statement[] = [];
  const lines = lineCounter(text);
  const groups = statementsOf(tokens);
  const read = groups.slice(0, mostStatements);
  const rest = groups.slice(mostStatements).flat();
  for (const group of rest.length > 0 ? [...read, rest] : read) {
    const before = found.length;
    const parser = new StatementParser(group, vocabulary, report);
    const { name, pipeline, pieces } =
      group === rest ? parser.rest({ of: 'cell', most: mostStatements }) : parser.statement();
    const place: Place = { from: group[0].from, to: group[group.length - 1].to };
    statements.push({ place, line: lines(place.from), name, pipeline, pieces, found: found.slice(before) });
  }
  return { text, statements, comments: tokens.filter(({ kind }) => kind === 'comment'), found };
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

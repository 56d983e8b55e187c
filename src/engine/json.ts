import { toJson, type Json } from '../values/json.ts';
import type { AskedNumber, NumberCheck } from './proseNumbers.ts';
import type { RunReport, StatementResult } from './result.ts';

/** Where each code cell stands in its file. */
export interface CellPlace {
  /** 1-based line in the file of the cell's first line. */
  readonly line: number;
}

/** A number of the prose, where it stands, and what became of it. */
export interface ProseJson {
  readonly asked: AskedNumber;
  /** 1-based line in the file. */
  readonly line: number;
  readonly check: NumberCheck;
}

/** A run as one JSON document. Lines are those of the file; columns count from 1, both ends inclusive. */
export function reportJson(
  notebook: string,
  cells: readonly CellPlace[],
  { ok, results, sources }: RunReport,
  prose: readonly ProseJson[] = [],
): Json {
  const byCell = new Map<number, Json[]>();
  for (const result of results) {
    const statement = statementJson(cells[result.cell].line, result);
    const inCell = byCell.get(result.cell);
    if (inCell) inCell.push(statement);
    else byCell.set(result.cell, [statement]);
  }
  const shown = [...byCell]
    .sort(([a], [b]) => a - b)
    .map(([index, statements]) => ({ index, line: cells[index].line, statements }));
  const files = sources.map(({ path, bytes, sha256 }) => ({ path, bytes, sha256 }));
  return { notebook, ok, sources: files, cells: shown, prose: prose.map(proseJson) };
}

const proseJson = ({ asked: { text, unit, expression }, line, check }: ProseJson): Json => ({
  line,
  text,
  unit,
  expression,
  agrees: check.state === 'agrees',
  now: check.state === 'differs' ? check.text : check.state === 'agrees' ? text : null,
  message: check.state === 'differs' || check.state === 'wrong' ? check.message.message : null,
});

function statementJson(cellLine: number, { line, name, shows, kind, value, warnings, error }: StatementResult): Json {
  return {
    line: cellLine + line - 1,
    name: name ?? null,
    ...(shows === undefined ? {} : { shows }),
    kind: kind ?? null,
    value: value === undefined ? null : toJson(value),
    warnings: warnings.map(({ code, message }) => ({ code, message })),
    error:
      error === undefined
        ? null
        : { code: error.code, message: error.message, line: cellLine + error.line - 1, from: error.from, to: error.to },
  };
}

import {
  answered,
  refused,
  success,
  type Answer,
  type Refused,
  type Result,
  type Warning,
} from '../../result/result.ts';
import { nearest } from '../../units/nearest.ts';
import type { Files } from '../../values/ports.ts';
import type { RunFacts } from '../../values/run.ts';
import type { SheetRow, SheetValue } from '../../values/sheet.ts';
import { refuse, tell } from '../messages/recordings.ts';
import { sheetIn } from './sheetFile.ts';
import { bareHeader, factOf } from '../../values/sheetColumns.ts';

/** What tells which recordings are meant. */
export interface Wanted {
  /** Files' names, or patterns. */
  readonly patterns: readonly string[];
  /** The run sheet's path. */
  readonly sheet: string | undefined;
  /** In turn a column of the sheet and what stands in it. */
  readonly where: readonly string[];
}

/** A recording that is to be read, and what the run sheet says of it. */
export interface ChosenFile {
  readonly path: string;
  readonly facts?: RunFacts;
  /** The sheet's reason to leave it out. */
  readonly excluded?: string;
}

export interface Choice {
  readonly files: readonly ChosenFile[];
  /** Excluded runs whose recording is not there. */
  readonly lost: readonly ChosenFile[];
  /** The sheet's own path. */
  readonly sheet?: string;
}

/**
 * Which recordings are meant: those that patterns stand for, those that a run sheet lists, or both. Refuses what is not
 * there, a sheet that can't be understood, and a choice among its rows that leaves none.
 */
export async function chosenFiles({ patterns, sheet, where }: Wanted, files: Files): Promise<Answer<Choice>> {
  const listed = await listedPaths(patterns, files);
  if (!listed.ok) return listed;
  if (sheet === undefined) return answered({ files: listed.value.map((path) => ({ path })), lost: [] });
  const read = await sheetIn(sheet, files, 'sheet');
  if (!read.ok) return read;
  const rows = chosenRows(read.value, where);
  if (!rows.ok) return rows;
  // A pattern that stands for all files of a folder stands for the sheet beside them, too, which is no recording.
  const asked = patterns.length === 0 ? undefined : listed.value.filter((path) => path !== read.value.file);
  const choice = await chosenRecordings(read.value, rows.value, asked, files);
  return choice.ok ? answered(choice.value, [...read.warnings, ...choice.warnings]) : choice;
}

/** The paths that patterns stand for, each once; refuses a pattern without a file. */
export async function listedPaths(patterns: readonly string[], files: Files): Promise<Result<readonly string[]>> {
  const paths = new Set<string>();
  for (const pattern of patterns) {
    const list = await files.expand(pattern);
    if (!list.ok) return list;
    for (const path of list.value) paths.add(path);
  }
  return success([...paths]);
}

/** The rows in which each column of `where` holds what stands after it. */
function chosenRows(sheet: SheetValue, where: readonly string[]): Result<readonly SheetRow[]> {
  if (where.length % 2 === 1) return refuse('sheet.where', { why: 'pairs' }, 'where');
  const { file } = sheet;
  const known = sheet.columns.map(bareHeader);
  let rows: readonly SheetRow[] = sheet.rows;
  for (let k = 0; k < where.length; k += 2) {
    const [written, value] = where.slice(k, k + 2);
    const column = written.toLowerCase();
    if (!known.includes(column)) {
      const near = nearest(column, known)[0];
      return refuse('sheet.where', { why: 'column', file, column: written, known, nearest: near }, 'where');
    }
    const cellOf = (row: SheetRow): string => factOf(row.facts, column) ?? '';
    const kept = rows.filter((row) => cellOf(row).toLowerCase() === value.toLowerCase());
    if (kept.length === 0) {
      const there = [...new Set(rows.map(cellOf))].filter((one) => one !== '');
      return refuse('sheet.where', { why: 'value', file, column, value, there }, 'where');
    }
    rows = kept;
  }
  return success(rows);
}

async function chosenRecordings(
  sheet: SheetValue,
  rows: readonly SheetRow[],
  asked: readonly string[] | undefined,
  files: Files,
): Promise<Answer<Choice>> {
  const found = await recordingsOf(sheet, rows, asked, files);
  if (!found.ok) return found;
  const { chosen, lost } = found.value;
  const inSheet = new Set(sheet.rows.map(({ file }) => file));
  const unlisted = (asked ?? []).filter((path) => !inSheet.has(path));
  chosen.push(...unlisted.map((path) => ({ path })));
  const warnings = [
    ...unmade(sheet, rows),
    ...unlisted.map((path) => tell('sheet.unlisted', { path, file: sheet.file })),
  ];
  if (chosen.every(({ excluded }) => excluded !== undefined))
    return refuse('sheet.none', { file: sheet.file, excluded: chosen.length + lost.length > 0 }, 'sheet');
  // In the order of the patterns where there are some, else of the sheet.
  const byPath = new Map(chosen.toReversed().map((one) => [one.path, one]));
  const ordered = asked === undefined ? chosen : asked.flatMap((path) => byPath.get(path) ?? []);
  return answered({ files: ordered, lost, sheet: sheet.file }, warnings);
}

function unmade({ file }: SheetValue, rows: readonly SheetRow[]): Warning[] {
  const lines = rows.filter((row) => row.file === '').map(({ line }) => line);
  return lines.length === 0 ? [] : [tell('sheet.unmade', { file, lines })];
}

/** The recordings of rows, those asked for; an excluded run may have lost its own. */
async function recordingsOf(
  sheet: SheetValue,
  rows: readonly SheetRow[],
  asked: readonly string[] | undefined,
  files: Files,
): Promise<Result<{ readonly chosen: ChosenFile[]; readonly lost: ChosenFile[] }> | Refused> {
  const chosen: ChosenFile[] = [];
  const lost: ChosenFile[] = [];
  const wanted = asked && new Set(asked);
  for (const row of rows) {
    if (row.file === '' || wanted?.has(row.file) === false) continue;
    const found = await files.expand(row.file, `${sheet.file}:${row.line}`);
    if (found.ok) chosen.push(chosenFile(row));
    else if (row.excluded) lost.push(chosenFile(row));
    else return refused({ ...found.failure, at: 'sheet' });
  }
  return success({ chosen, lost });
}

function chosenFile({ file, condition, order, excluded, why, facts }: SheetRow): ChosenFile {
  const reason = excluded ? { excluded: why ?? 'no reason given' } : {};
  return {
    path: file,
    facts: {
      ...(condition === undefined ? {} : { condition }),
      ...(order === undefined ? {} : { order }),
      ...reason,
      facts,
    },
    ...reason,
  };
}

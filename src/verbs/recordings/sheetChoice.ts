import { nearest } from '../../units/nearest.ts';
import { option, textOf } from '../arguments.ts';
import { bareHeader, factOf, sheetIn, type ReadSheet } from '../../analysis/recordings/sheetFile.ts';
import type { RunFacts } from '../../values/run.ts';
import type { SheetRow, SheetValue } from '../../values/sheet.ts';
import { refuse, type Failure, type Warning, type Result } from '../../result/result.ts';
import type { Files } from '../../values/ports.ts';
import type { Arguments } from '../verb.ts';

type Refused = { readonly ok: false; readonly failure: Failure };

/** A recording that `load` is to read, and what the run sheet says of it. */
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
  readonly warnings: readonly Warning[];
}

/** Which recordings a `load` means: those its patterns stand for, those a run sheet lists, or both. */
export async function chosenFiles(given: Arguments, files: Files): Promise<Choice | Refused> {
  const patterns = (given.operands.files ?? []).flatMap((argument) => textOf(argument) ?? []);
  const listed = await pathsOf(patterns, files);
  if (!listed.ok) return listed;
  const sheetPath = textOf(option(given, 'sheet'));
  if (sheetPath === undefined) {
    if (given.options.where !== undefined)
      return refuse('sheet.missing', 'where chooses rows of a run sheet: name one, as in sheet "runs.csv".', 'where');
    if (given.options.including !== undefined)
      return refuse('sheet.missing', 'Only a run sheet excludes runs: name one, as in sheet "runs.csv".', 'including');
    if (patterns.length === 0)
      return refuse(
        'operand.missing',
        'load needs files, as in load "raw/*.csv", or a run sheet, as in load sheet "runs.csv".',
      );
    return { files: listed.value.map((path) => ({ path })), lost: [], warnings: [] };
  }
  const read = await sheetIn(sheetPath, files, 'sheet');
  if ('failure' in read) return read;
  const rows = chosenRows(read.sheet, given);
  if (!Array.isArray(rows)) return rows;
  const asked = patterns.length === 0 ? undefined : listed.value;
  return recordings(read, rows, asked, files);
}

async function pathsOf(patterns: readonly string[], files: Files): Promise<Result<readonly string[]>> {
  const paths: string[] = [];
  for (const pattern of patterns) {
    const list = await files.expand(pattern);
    if (!list.ok) return list;
    paths.push(...list.value.filter((path) => !paths.includes(path)));
  }
  return { ok: true, value: paths };
}

/** The rows that `where condition foam, surface brick` keeps. */
function chosenRows(sheet: SheetValue, given: Arguments): SheetRow[] | Refused {
  const words = (given.options.where ?? []).flatMap((argument) => textOf(argument) ?? []);
  if (words.length % 2 === 1)
    return refuse(
      'sheet.where',
      'where takes pairs of a column and a value, as in where condition foam, surface brick.',
      'where',
    );
  let rows = [...sheet.rows];
  for (let k = 0; k < words.length; k += 2) {
    const [column, value] = [words[k].toLowerCase(), words[k + 1]];
    const known = sheet.columns.map(bareHeader);
    if (!known.includes(column)) {
      const near = nearest(column, known)[0];
      return refuse(
        'sheet.where',
        `${sheet.file} has no column ${words[k]}: ${near === undefined ? `it has ${known.join(', ')}` : `did you mean ${near}`}.`,
        'where',
      );
    }
    const cellOf = (row: SheetRow): string => factOf(row.facts, column) ?? '';
    const kept = rows.filter((row) => cellOf(row).toLowerCase() === value.toLowerCase());
    if (kept.length === 0) {
      const values = [...new Set(rows.map(cellOf))].filter((one) => one !== '');
      const found = values.length === 0 ? 'that column is blank' : `there is ${values.slice(0, 8).join(', ')}`;
      return refuse('sheet.where', `No run of ${sheet.file} has ${column} "${value}": ${found}.`, 'where');
    }
    rows = kept;
  }
  return rows;
}

async function recordings(
  { sheet, warnings }: ReadSheet,
  rows: readonly SheetRow[],
  asked: readonly string[] | undefined,
  files: Files,
): Promise<Choice | Refused> {
  const chosen: ChosenFile[] = [];
  const lost: ChosenFile[] = [];
  const said = [...warnings];
  const unmade = rows.filter(({ file }) => file === '');
  if (unmade.length > 0)
    said.push({
      code: 'sheet.unmade',
      message: `${sheet.file} names no recording yet in line ${unmade.map(({ line }) => line).join(', ')}.`,
    });
  for (const row of rows) {
    if (row.file === '' || (asked !== undefined && !asked.includes(row.file))) continue;
    const one = chosenFile(row);
    const found = await files.expand(row.file);
    if (found.ok) chosen.push(one);
    else if (row.excluded) lost.push(one);
    else return refuse(found.failure.code, `${sheet.file}:${row.line}: ${found.failure.message}`, 'sheet');
  }
  for (const path of asked ?? []) {
    if (rows.some(({ file }) => file === path)) continue;
    if (sheet.rows.some(({ file }) => file === path)) continue;
    chosen.push({ path });
    said.push({ code: 'sheet.unlisted', message: `${path} does not stand in ${sheet.file}: add a row for it.` });
  }
  if (chosen.every(({ excluded }) => excluded !== undefined)) {
    const why = chosen.length + lost.length > 0 ? 'all of them are excluded' : 'none of them names a recording';
    return refuse('sheet.none', `${sheet.file} leaves no run to load: ${why}.`, 'sheet');
  }
  // In the order of the patterns where there are some, else of the sheet.
  const ordered = asked === undefined ? chosen : asked.flatMap((path) => chosen.find((one) => one.path === path) ?? []);
  return { files: ordered, lost, sheet: sheet.file, warnings: said };
}

function chosenFile({ file, condition, order, excluded, why, facts }: SheetRow): ChosenFile {
  const reason = excluded ? (why ?? 'no reason given') : undefined;
  return {
    path: file,
    facts: {
      ...(condition === undefined ? {} : { condition }),
      ...(order === undefined ? {} : { order }),
      ...(reason === undefined ? {} : { excluded: reason }),
      facts,
    },
    ...(reason === undefined ? {} : { excluded: reason }),
  };
}

import { success, type Result } from '../../result/result.ts';
import type { Reading } from '../assemble.ts';
import { decoderFor, isBinary, sniffEncoding } from '../encoding.ts';
import { limits } from '../limits.ts';
import { refuse } from '../messages.ts';
import { openFile, type OpenFile, type Pieces } from '../pieces.ts';
import type { Layout, ReadOptions, ReadWatch } from '../recording.ts';
import type { Table } from '../table.ts';
import { asUtf8 } from '../utf16.ts';
import type { Body } from './body.ts';
import { columnOf, firstRows, startBody } from './columns.ts';
import { findTable, type FoundTable } from './findTable.ts';
import { checksumsIn } from './checksums.ts';
import { isBlank, isComment, uncommented } from './fields.ts';
import { byteOfLine, readHead, type BareHead, type TextHead } from './head.ts';
import { plainHead, type PlainHead } from './plainHead.ts';
import { readPreamble, type Preamble } from './preamble.ts';
import type { Grid } from './sniff.ts';

/** Reads delimited text; refuses one that is no table, or can be read in more ways than one. */
export async function readText(file: OpenFile, options: ReadOptions, watch: ReadWatch): Promise<Result<Reading>> {
  const opened = await openText(file, options);
  if (!opened.ok) return opened;
  const { text, firstRow, firstLine } = opened.value;
  const read = await readRows(opened.value, { pieces: text.from(firstRow), size: file.size, line: firstLine }, watch);
  return read.ok ? success(read.value.reading) : read;
}

/** A text whose layout is known, and none of whose rows have been read. */
export interface OpenText extends LaidOut {
  readonly text: OpenFile;
  readonly encoding: string;
  readonly decoder: TextDecoder;
  /** Where its first row begins, in bytes, and its 1-based line. */
  readonly firstRow: number;
  readonly firstLine: number;
}

/** Finds a text's layout; refuses one that is no table, or can be read in more ways than one. */
export async function openText(file: OpenFile, options: ReadOptions): Promise<Result<OpenText>> {
  const { path, size } = file;
  const { encoding, mark } = sniffEncoding(file.head);
  if (isBinary(file.head, encoding)) return refuse('not-text', { path });
  const isWide = isOfWords(encoding);
  const opened = isWide ? await openFile(path, size, asUtf8(encoding, file.from(mark))) : success(file);
  if (!opened.ok) return opened;
  const text = opened.value;
  const start = isWide ? 0 : mark;
  const decoder = decoderFor(encoding);
  const laidOut = plainLayout(text, start, decoder, options) ?? layoutIn(text, start, decoder, options);
  if (!laidOut.ok) return laidOut;
  const { head, table } = laidOut.value;
  const firstLine = head.lines[table.grid.first].line;
  return success({ head, table, text, encoding, decoder, firstRow: start + byteOfLine(head, firstLine), firstLine });
}

/** Whether each character of an encoding takes two bytes. */
export const isOfWords = (encoding: string): encoding is 'UTF-16LE' | 'UTF-16BE' =>
  encoding === 'UTF-16LE' || encoding === 'UTF-16BE';

/** Rows of a text: their bytes, about how many there are, and the line of the first. */
export interface TextRows {
  readonly pieces: Pieces;
  readonly size: number;
  readonly line: number;
}

/** Reads rows of a text, all of them or whole rows from its middle; gives the line behind the last one, too. */
export async function readRows(
  { text: { path }, encoding, decoder, head, table: found, firstLine }: OpenText,
  { pieces, size, line }: TextRows,
  watch: ReadWatch,
): Promise<Result<{ readonly reading: Reading; readonly nextLine: number }>> {
  const { grid, header, labelled, preamble } = found;
  const body = startBody({ path, head, found, size, decoder, line });
  const refused = await body.read(pieces, watch);
  if (refused) return refused;
  const columns = grid.columns.map((_, k) => columnOf(found, k, body));
  const table: Table = { columns, rows: body.rows, named: header.names !== undefined, lineOf: body.lineOf };
  const layout: Layout = {
    format: 'delimited text',
    encoding,
    delimiter: labelled ? 'labels' : grid.delimiter,
    decimal: grid.decimal,
    preamble: preamble.lines,
    keys: preamble.keys,
    headerLine: header.headerLine,
    unitsLine: header.unitsLine,
    firstRowLine: firstLine,
    rows: body.rows,
    firstRows: firstRows(head, found),
  };
  const { unit, dropped, calibration, start: began } = preamble;
  const stated = statedRate(preamble, body, grid.decimal);
  const origin = { path, layout, findings: body.findings, stated, unit, dropped, calibration, start: began };
  return success({ reading: { origin, table }, nextLine: body.line });
}

/** A head and the table that was found in it. */
interface LaidOut {
  readonly head: BareHead;
  readonly table: FoundTable;
}

/** The layout as the head tells it, or as much of it as is enough. */
function layoutIn(
  text: OpenFile,
  start: number,
  decoder: TextDecoder,
  options: ReadOptions,
  plain?: PlainHead,
): Result<LaidOut> {
  const raw = readHead(text, start, decoder, options.skip ?? 0, plain?.enough);
  if (!raw.ok) return raw;
  const head = bareHead(raw.value, options);
  const table = findTable(text.path, head.lines, options, plain?.form);
  return table.ok ? success({ head, table: table.value }) : table;
}

/** The layout of a head whose first lines are certain to tell as much as all of it would; undefined of any other. */
function plainLayout(
  text: OpenFile,
  start: number,
  decoder: TextDecoder,
  options: ReadOptions,
): Result<LaidOut> | undefined {
  const { delimiter, decimal, skip, comment } = options;
  if ([delimiter, decimal, skip, comment].some((one) => one !== undefined)) return undefined;
  const plain = plainHead(text.head.subarray(start, start + limits.head), text.isWhole);
  if (plain === undefined) return undefined;
  const { decimals } = plain;
  const found = layoutIn(text, start, decoder, options, plain);
  // What is refused is refused by all that is known.
  if (!found.ok || found.value.table.grid.columns.length !== decimals.length) return undefined;
  const { head, table } = found.value;
  return success({ head, table: { ...table, decimals } });
}

/**
 * The head without what stands around its rows: checksums behind them, and marks of comments before them where the option
 * says so, or all lines of the file have them.
 */
function bareHead(head: TextHead, { comment }: ReadOptions): BareHead {
  const filled = head.lines.filter(({ text }) => !isBlank(text));
  const isMarked = comment === 'none' || (filled.length > 1 && filled.slice(1).every(({ text }) => isComment(text)));
  const unmarked = isMarked ? head.lines.map((one) => ({ ...one, text: uncommented(one.text) })) : head.lines;
  const checksums = checksumsIn(unmarked);
  const lines = checksums ? unmarked.map((one) => ({ ...one, text: checksums.bareInHead(one.text) })) : unmarked;
  return { ...head, lines, isMarked, checksums };
}

/** The preamble's rate; comments further down may take it back: where a recording was started anew at another, none holds. */
function statedRate(
  { rate, rateKey }: Preamble,
  { comments }: Body,
  decimal: Grid['decimal'],
): Reading['origin']['stated'] {
  if (rate === undefined) return undefined;
  const later = readPreamble(comments, decimal).rate ?? rate;
  if (Math.abs(later / rate - 1) >= 1e-6) return undefined;
  return { rate, from: 'preamble', name: `"${rateKey}" in the preamble` };
}

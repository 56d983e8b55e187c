import papa from 'papaparse/papaparse.min.js';
import { success, type Result } from '../result/result.ts';
import { decoderFor, isBinary, sniffEncoding } from './encoding.ts';
import { refuse } from './messages.ts';
import { piecesOf } from './pieces.ts';
import type { ByteSource } from './recording.ts';

/** A small table of text beside the recordings: one row a run. */
export interface SheetText {
  readonly columns: readonly SheetColumn[];
  readonly rows: readonly { readonly line: number; readonly cells: readonly string[] }[];
}

/** `speed (m/s)` is the column `speed` in `m/s`. */
export interface SheetColumn {
  readonly header: string;
  /** In lower case, without the unit. */
  readonly name: string;
  readonly unit: string | undefined;
}

/** A sheet is typed by a person: one larger than this is a recording by mistake. */
const largest = 2_000_000;

/**
 * Reads a run sheet: delimited by comma, semicolon or tab, whichever the header holds most of; quoted cells, blank lines
 * and lines that begin with `#` as usual; in any encoding that the recordings may have. Refuses a file that is too large,
 * no text or empty, a name that stands above two columns, and a row that is longer than the header.
 */
export async function readSheet(source: ByteSource): Promise<Result<SheetText>> {
  const { path } = source;
  if (source.size > largest) return refuse('sheet.large', { path });
  const bytes = await bytesOf(source);
  if (!bytes.ok) return bytes;
  const text = textOf(bytes.value);
  if (text === undefined) return refuse('sheet.binary', { path });
  const lines = text.split(/\r\n|\n|\r/);
  const first = lines.findIndex((line) => line.trim() !== '' && !line.startsWith('#'));
  if (first < 0) return refuse('sheet.empty', { path });
  const body = lines.slice(first).join('\n');
  const { data } = papa.parse(body, { delimiter: delimiterOf(lines[first]), quoteChar: '"', skipEmptyLines: false });
  const columns = (data[0] ?? []).map(columnOf);
  const twice = columns.find(({ name }, index) => name !== '' && columns.findIndex((one) => one.name === name) < index);
  if (twice !== undefined) return refuse('sheet.column', { path, line: first + 1, name: twice.name });
  const rows = [];
  let line = first + 1;
  for (const cells of data.slice(1)) {
    line += 1;
    const blank = cells.every((cell) => cell.trim() === '');
    if (!blank && !cells[0].startsWith('#')) {
      if (cells.length > columns.length)
        return refuse('sheet.width', { path, line, cells: cells.length, columns: columns.length });
      rows.push({ line, cells: columns.map((_, index) => (cells[index] ?? '').trim()) });
    }
    // A quoted note may run over several lines.
    line += cells.reduce((sum, cell) => sum + cell.split('\n').length - 1, 0);
  }
  return success({ columns, rows });
}

async function bytesOf(source: ByteSource): Promise<Result<Uint8Array>> {
  const all = new Uint8Array(source.size);
  const pieces = piecesOf(source);
  let at = 0;
  for (let piece = await pieces.next(); piece !== undefined; piece = await pieces.next()) {
    all.set(piece.subarray(0, all.length - at), at);
    at += piece.length;
  }
  return pieces.failure() ?? success(all.subarray(0, Math.min(at, all.length)));
}

function textOf(bytes: Uint8Array): string | undefined {
  const { encoding, mark } = sniffEncoding(bytes);
  if (isBinary(bytes, encoding)) return undefined;
  const rest = bytes.subarray(mark);
  if (encoding === 'UTF-16LE' || encoding === 'UTF-16BE') return new TextDecoder(encoding.toLowerCase()).decode(rest);
  return decoderFor(encoding).decode(rest);
}

function delimiterOf(header: string): string {
  const count = (mark: string): number => header.split(mark).length;
  return [',', ';', '\t'].reduce((best, mark) => (count(mark) > count(best) ? mark : best));
}

function columnOf(text: string): SheetColumn {
  const header = text.trim();
  const match = /^(.*?)\s*[([]\s*([^()[\]]*?)\s*[)\]]\s*$/.exec(header);
  const name = (match?.[1] ?? header).trim().toLowerCase();
  return { header, name, unit: match === null || match[2] === '' ? undefined : match[2] };
}

/** A number in a sheet's cell, with a decimal point or comma; undefined for anything else. */
export function sheetNumber(cell: string): number | undefined {
  return /^[+-]?\d+(?:[.,]\d+)?$/.test(cell) ? Number(cell.replace(',', '.')) : undefined;
}

/** Seconds of a date or a date and time of ISO 8601 (`2025-05-13T09:41`, or with a blank); undefined for anything else. */
export function sheetDate(cell: string): number | undefined {
  const match = /^(\d{4}-\d{2}-\d{2})(?:[T ](\d{1,2}):(\d{2}(?::\d{2}(?:\.\d+)?)?)(Z|[+-]\d{2}:\d{2})?)?$/.exec(cell);
  if (match === null) return undefined;
  const [, date, hour = '0', rest = '00', zone = 'Z'] = match;
  const found = Date.parse(`${date}T${hour.padStart(2, '0')}:${rest}${zone}`);
  return Number.isNaN(found) ? undefined : found / 1000;
}

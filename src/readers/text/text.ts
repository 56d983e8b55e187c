import { success, type Result } from '../../result/result.ts';
import type { Reading } from '../assemble.ts';
import { decoderFor, isBinary, sniffEncoding } from '../encoding.ts';
import { refuse } from '../messages.ts';
import { openFile, type OpenFile } from '../pieces.ts';
import type { Layout, ReadOptions, ReadWatch } from '../recording.ts';
import type { Table } from '../table.ts';
import { asUtf8 } from '../utf16.ts';
import type { Body } from './body.ts';
import { columnOf, firstRows, startBody } from './columns.ts';
import { findTable } from './findTable.ts';
import { checksumsIn } from './checksums.ts';
import { isBlank, isComment, uncommented } from './fields.ts';
import { byteOfLine, readHead, type BareHead, type TextHead } from './head.ts';
import { readPreamble, type Preamble } from './preamble.ts';
import type { Grid } from './sniff.ts';

/** Reads delimited text; refuses one that is no table, or can be read in more ways than one. */
export async function readText(file: OpenFile, options: ReadOptions, watch: ReadWatch): Promise<Result<Reading>> {
  const { path, size } = file;
  const { encoding, mark } = sniffEncoding(file.head);
  if (isBinary(file.head, encoding)) return refuse('not-text', { path });
  const isWide = encoding === 'UTF-16LE' || encoding === 'UTF-16BE';
  const opened = isWide ? await openFile(path, size, asUtf8(encoding, file.from(mark))) : success(file);
  if (!opened.ok) return opened;
  const text = opened.value;
  const start = isWide ? 0 : mark;
  const decoder = decoderFor(encoding);
  const raw = readHead(text, start, decoder, options.skip ?? 0);
  if (!raw.ok) return raw;
  const head = bareHead(raw.value, options);
  const found = findTable(path, head.lines, options);
  if (!found.ok) return found;
  const { grid, header, labelled, preamble } = found.value;
  const body = startBody(path, head, found.value, size, decoder);
  const firstRowLine = head.lines[grid.first].line;
  const refused = await body.read(text.from(start + byteOfLine(head, firstRowLine)), watch);
  if (refused) return refused;
  const columns = grid.columns.map((_, k) => columnOf(found.value, k, body));
  const table: Table = { columns, rows: body.rows, named: header.names !== undefined, lineOf: body.lineOf };
  const layout: Layout = {
    format: 'delimited text',
    encoding,
    delimiter: labelled ? 'labels' : grid.delimiter,
    decimal: grid.decimal,
    preamble: preamble.lines,
    keys: preamble.keys,
    ...(header.headerLine === undefined ? {} : { headerLine: header.headerLine }),
    ...(header.unitsLine === undefined ? {} : { unitsLine: header.unitsLine }),
    firstRowLine,
    rows: body.rows,
    firstRows: firstRows(head, found.value),
  };
  const { unit, dropped, calibration, start: began } = preamble;
  const stated = statedRate(preamble, body, grid.decimal);
  const origin = { path, layout, findings: body.findings, stated, unit, dropped, calibration, start: began };
  return success({ origin, table });
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

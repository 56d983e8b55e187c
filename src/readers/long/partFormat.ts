import { success, type Result } from '../../result/result.ts';
import type { Reading } from '../assemble.ts';
import { sniffEncoding } from '../encoding.ts';
import { findingsAtEnd, isWav, openWav, readFrames } from '../formats/wav.ts';
import type { OpenFile, Pieces } from '../pieces.ts';
import type { Finding, PartSizes, ReadOptions, ReadWatch } from '../recording.ts';
import { isQuoted } from '../text/columns.ts';
import { isOfWords, openText, readRows } from '../text/text.ts';
import type { CutIn } from './cutting.ts';

/** The rows of a part. */
export interface PartRows {
  readonly pieces: Pieces;
  /** About how many bytes they are. */
  readonly size: number;
  /** 1-based line of the first. */
  readonly line: number;
}

/** A part's columns, and the line behind its last row. */
export interface PartReading {
  readonly reading: Reading;
  readonly nextLine: number;
}

/** How a file is read part by part. */
export interface PartFormat {
  /** Where its rows begin and end, in bytes, and the 1-based line of the first. */
  readonly span: { readonly from: number; readonly to: number };
  readonly line: number;
  /** Bytes of a part. */
  readonly size: number;
  readonly cutIn: CutIn;
  read(rows: PartRows, watch: ReadWatch): Promise<Result<PartReading>>;
  /** What is to be told of the end of the file, where it may be anything. @param behind what comes behind the rows */
  findingsAtEnd?(behind: Pieces): Promise<readonly Finding[]>;
}

/** Bytes of numbers in memory that a byte of a file of samples makes, about. */
const grows = 4;

/** How a file is read part by part; undefined of one that is not so large, or can't be. @param file not read any further */
export async function partFormat(
  file: OpenFile,
  options: ReadOptions,
  { from, part }: PartSizes,
): Promise<PartFormat | undefined> {
  if (isWav(file.head)) return grows * file.size < from ? undefined : wavParts(file, part / grows);
  return file.size < from ? undefined : textParts(file, options, part);
}

async function textParts(file: OpenFile, options: ReadOptions, size: number): Promise<PartFormat | undefined> {
  // Two bytes of a character must stay together, and finding the layout of such a text reads on in the file.
  if (isOfWords(sniffEncoding(file.head).encoding)) return undefined;
  const opened = await openText(file, options);
  if (!opened.ok) return undefined;
  const text = opened.value;
  const { head, table, firstRow, firstLine } = text;
  // A line may end within quotes.
  if (isQuoted(head, table)) return undefined;
  return {
    span: { from: firstRow, to: file.size },
    line: firstLine,
    size,
    cutIn: (piece) => piece.lastIndexOf(head.lineEnd) + 1,
    read: (rows, watch) => readRows(text, rows, watch),
  };
}

async function wavParts(file: OpenFile, size: number): Promise<PartFormat | undefined> {
  const opened = await openWav(file);
  if (!opened.ok || opened.value.from > file.head.length) return undefined;
  const wav = opened.value;
  const { from, to, frame } = wav;
  return {
    span: { from, to },
    line: 1,
    size,
    cutIn: (piece, at) => Math.max(0, Math.floor((at + piece.length - from) / frame) * frame - (at - from)),
    async read({ pieces, size: bytes, line }, watch) {
      const reading = await readFrames(wav, { pieces, bytes }, watch);
      return reading.ok ? success({ reading: reading.value, nextLine: line }) : reading;
    },
    findingsAtEnd: (behind) => findingsAtEnd(wav, behind),
  };
}

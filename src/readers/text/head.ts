import { success, type Result } from '../../result/result.ts';
import { limits } from '../limits.ts';
import { refuse } from '../messages.ts';
import type { OpenFile } from '../pieces.ts';
import type { Checksums } from './checksums.ts';

/** A line of the head. */
export interface HeadLine {
  readonly text: string;
  /** 1-based line of the file. */
  readonly line: number;
}

/** The first lines of a text, by which its layout is found. */
export interface TextHead {
  readonly lines: readonly HeadLine[];
  readonly bytes: Uint8Array;
  /** The byte that ends a line. */
  readonly lineEnd: number;
}

/** The lines of the head from byte `start` on, less `skip` of them. @param most bytes that are looked at */
export function readHead(
  { path, head, isWhole }: OpenFile,
  start: number,
  decoder: TextDecoder,
  skip: number,
  most: number = limits.head,
): Result<TextHead> {
  // Pieces are larger than what is looked at.
  const bytes = head.subarray(start, start + most);
  let last = bytes.length;
  while (last > 0 && (bytes[last - 1] === 0 || bytes[last - 1] === 26)) last--;
  const text = decoder.decode(bytes.subarray(0, last));
  const parts = text.split(/\r\n|\n|\r/);
  if (!isWhole || parts[parts.length - 1] === '') parts.pop();
  if (parts.length === 0 && !isWhole) return refuse('line-too-long', { path });
  const lines = parts.map((part, i) => ({ text: part, line: i + 1 })).slice(skip, skip + 2000);
  if (lines.length === 0)
    return refuse('empty', { path, ...(skip > 0 ? { skipped: { skip, lines: parts.length } } : {}) });
  return success({ lines, bytes, lineEnd: text.includes('\n') ? 10 : 13 });
}

/** A head whose lines are without what stands around their rows. */
export interface BareHead extends TextHead {
  /** Whether marks of comments were taken off lines that may be rows. */
  readonly isMarked: boolean;
  readonly checksums: Checksums | undefined;
}

/** Where a 1-based line begins in the head's bytes. */
export function byteOfLine(head: TextHead, line: number): number {
  let at = 0;
  for (let passed = 1; passed < line; at++) {
    const c = head.bytes[at];
    if (c === 10 || (c === 13 && head.bytes[at + 1] !== 10)) passed++;
  }
  return at;
}

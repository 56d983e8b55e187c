import { success, type Success } from '../result/result.ts';
import type { Unreadable } from './cells.ts';
import { splitLines, type Line } from './lines.ts';
import { tell } from './messages.ts';

/** The text of a file with its byte order mark, or why it is no text that may be written back. */
export function decode(bytes: Uint8Array): Success<string> | Unreadable {
  try {
    return success(new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes));
  } catch {
    return unreadable(bytes);
  }
}

function unreadable(bytes: Uint8Array): Unreadable {
  const pair = bytes[0] * 256 + bytes[1];
  const utf16 = pair === 0xfffe || pair === 0xfeff;
  const line = utf16 ? 1 : firstBadLine(bytes);
  return { ok: false, failure: { ...tell('not-utf8', { line, utf16 }), line } };
}

/** A line feed's byte is never part of a longer character, so each line can be tried alone. */
function firstBadLine(bytes: Uint8Array): number {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let line = 1;
  for (let start = 0; start < bytes.length; line++) {
    const feed = bytes.indexOf(10, start);
    const end = feed < 0 ? bytes.length : feed + 1;
    try {
      decoder.decode(bytes.subarray(start, end));
    } catch {
      return line;
    }
    start = end;
  }
  return line;
}

/**
 * Merge conflict markers: a line of seven `<`, or seven `>` and a name below a line of seven `=`. Seven `=`
 * alone underline a heading, and seven `>` alone are a deep quote.
 */
export function conflictIn(lines: readonly Line[]): Unreadable | undefined {
  let divided = false;
  for (let at = 0; at < lines.length; at++) {
    const { text } = lines[at];
    if (/^={7}$/.test(text)) divided = true;
    if (!/^<{7}(?: |$)/.test(text) && !(divided && /^>{7} \S/.test(text))) continue;
    const line = at + 1;
    return { ok: false, failure: { ...tell('conflict', { line, mark: text.slice(0, 7) }), line } };
  }
  return undefined;
}

/** The lines of a text without its byte order mark. */
export const linesOf = (text: string): Line[] => splitLines(text.startsWith('\ufeff') ? text.slice(1) : text);

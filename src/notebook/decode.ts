import type { Refusal } from './cells.ts';
import { splitLines, type Line } from './lines.ts';

/** The text of a file with its byte order mark, or why it is no text that may be written back. */
export function decode(bytes: Uint8Array): string | Refusal {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return refusalOf(bytes);
  }
}

function refusalOf(bytes: Uint8Array): Refusal {
  const pair = bytes[0] * 256 + bytes[1];
  if (pair === 0xfffe || pair === 0xfeff) {
    const message =
      'The file is UTF-16 text; a notebook is UTF-8. Open it as text and save it with the encoding UTF-8.';
    return { refused: { code: 'not-utf8', line: 1, message } };
  }
  const line = firstBadLine(bytes);
  const message =
    `Line ${line} is not valid UTF-8, so the file cannot be a notebook without losing bytes. ` +
    'Open it as text, with the encoding that it was written in, and save it as UTF-8.';
  return { refused: { code: 'not-utf8', line, message } };
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
export function conflictIn(lines: readonly Line[]): Refusal | null {
  let divided = false;
  for (let at = 0; at < lines.length; at++) {
    const { text } = lines[at];
    if (/^={7}$/.test(text)) divided = true;
    if (!/^<{7}(?: |$)/.test(text) && !(divided && /^>{7} \S/.test(text))) continue;
    const message =
      `Line ${at + 1} is a mark of an unfinished merge (${text.slice(0, 7)}). ` +
      'Open the file as text or in the merge editor, keep one side of each conflict, and open it again.';
    return { refused: { code: 'conflict', line: at + 1, message } };
  }
  return null;
}

/** The lines of a text without its byte order mark. */
export const linesOf = (text: string): Line[] => splitLines(text.startsWith('\ufeff') ? text.slice(1) : text);

import { cellLanguage } from './cells.ts';
import type { Eol } from './lines.ts';

/** The plain form of a cell: what a new one is written as, and what needs no `raw` when it is read. */
export const plainOpen = '```' + cellLanguage;
export const plainClose = '```';

/** The lines of a code cell's body; those of a closed cell all end, the last of an unclosed one does not. */
export function plainBody(text: string, eol: Eol, closed: boolean): string {
  if (text === '') return '';
  return text.replaceAll('\n', eol) + (closed ? eol : '');
}

/** Whether a gap (the end of one line, then blank lines) holds a blank line. */
export const hasBlankLine = (gap: string): boolean => gap.replace(/^(?:\r\n|\r|\n)/, '') !== '';

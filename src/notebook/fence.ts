import { expandTabs } from './lines.ts';

/** A code fence as its opening line states it. */
export interface Fence {
  readonly mark: '`' | '~';
  readonly length: number;
  /** Columns before the fence, 0 to 3; as many are taken off each line of its body. */
  readonly indent: number;
  /** What follows the fence, with blanks at both ends removed. */
  readonly info: string;
}

/** Reads an opening fence, or null: 3 or more backticks or tildes, indented by at most 3 (CommonMark 4.5). */
export function readFence(line: string): Fence | null {
  const match = /^( {0,3})(`{3,}(?=[^`]*$)|~{3,})(.*)$/s.exec(expandTabs(line));
  if (!match) return null;
  const [, indent, run, info] = match;
  return { mark: run[0] as '`' | '~', length: run.length, indent: indent.length, info: info.trim() };
}

/** Whether `line` closes `fence`: the same mark, at least as long, nothing but blanks after it. */
export function closesFence(fence: Pick<Fence, 'mark' | 'length'>, line: string): boolean {
  return closerLength(fence.mark, line) >= fence.length;
}

/** The length of the fence that `line` could close, 0 when it can close none. */
export function closerLength(mark: '`' | '~', line: string): number {
  const match = /^ {0,3}(`{3,}|~{3,}) *$/.exec(expandTabs(line));
  return match?.[1].startsWith(mark) === true ? match[1].length : 0;
}

export const firstWord = (info: string): string => info.split(/\s+/, 1)[0];

/**
 * A body line as its fence shows it: up to `indent` columns of blanks removed; what is left of a tab that
 * reaches further becomes spaces.
 */
export function unindent(line: string, indent: number): string {
  let column = 0;
  let at = 0;
  while (column < indent && (line[at] === ' ' || line[at] === '\t')) {
    column += line[at] === '\t' ? 4 - (column % 4) : 1;
    at++;
  }
  return ' '.repeat(Math.max(0, column - indent)) + line.slice(at);
}

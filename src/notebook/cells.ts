import type { Failure, Message } from '../result/result.ts';

/** A cell of a notebook: a code cell is a `washboard` block, a prose cell the Markdown between two of them. */
export interface NotebookCell {
  readonly kind: 'code' | 'prose';
  /** What the author sees and edits: lines joined by line feeds, without fences and without a last line end. */
  readonly text: string;
  /** Code only: the language, when it is not `washboard`; such a block is plain text once the file is read again. */
  readonly language?: string;
  /** How the file spells the cell, where that is not how it would be written anew. */
  readonly raw?: RawCell;
  /** 1-based line in the file of the first line of `text`; present on cells that were read from a file. */
  readonly line?: number;
}

/**
 * What the text of a cell does not say about its lines in the file. Flat and JSON-able, to be carried in an
 * editor's cell metadata (not transient: an editor drops transient metadata on saving); absent altogether
 * for a cell in the plain form, which is three backticks at the left margin with one blank line around.
 */
export interface RawCell {
  /** Code: the opening fence with its line end. */
  readonly open?: string;
  /** The lines of the body with their line ends, the last one of a prose cell or unclosed cell without. */
  readonly body?: string;
  /** Code: the closing fence without its line end; empty when the file never closes it. */
  readonly close?: string;
  /** The end of the cell's last line and the blank lines after it. */
  readonly gap?: string;
  /** No blank line stands between the cell before and this one. */
  readonly glued?: boolean;
}

/** What a file has around its cells; `{}` for a plain file. Flat and JSON-able, for an editor's notebook metadata. */
export interface Frame {
  /** The file begins with a byte order mark. */
  readonly bom?: boolean;
  /** The line end of most lines, when it is not a line feed. */
  readonly eol?: '\r\n' | '\r';
  /** Blank lines before the first cell. */
  readonly head?: string;
  /** What follows the text of the last cell, when it is not one line end. */
  readonly tail?: string;
}

/** What an author may want to know about a block that is not the cell it looks like. */
export interface Notice extends Message {
  /** 1-based line of the opening fence. */
  readonly line: number;
}

export interface Notebook {
  readonly cells: readonly NotebookCell[];
  readonly frame: Frame;
  readonly notices: readonly Notice[];
}

/** Why a file cannot be opened as a notebook; it can still be opened as text. */
export interface Unreadable {
  readonly ok: false;
  /** With the 1-based line that is to blame. */
  readonly failure: Failure & { readonly line: number };
}

/** The first word of the info string that makes a fenced block a cell, exactly so. */
export const cellLanguage = 'washboard';

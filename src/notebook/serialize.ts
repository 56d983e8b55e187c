import { atStart, readLine, type BlockState } from './blocks.ts';
import { cellLanguage, type Frame, type NotebookCell } from './cells.ts';
import { bodyLines, editLines } from './editLines.ts';
import { closerLength, firstWord, readFence, unindent, type Fence } from './fence.ts';
import { append, isBlank, normalise, splitLines, type Eol } from './lines.ts';
import { hasBlankLine, plainBody, plainClose } from './plain.ts';

/**
 * Writes a notebook. A cell whose text is as it was read is written as the file had it; of an edited cell
 * only the edited lines change; a new cell gets plain fences and a blank line on either side. Prose cells
 * that hold nothing are left out, and two prose cells in a row are one when the file is read again.
 */
export function serializeNotebook(notebook: {
  readonly cells: readonly NotebookCell[];
  readonly frame?: Frame;
}): Uint8Array {
  const frame = notebook.frame ?? {};
  const eol = frame.eol ?? '\n';
  const head = frame.head ?? '';
  const cells = notebook.cells.filter(
    ({ kind, text }) => kind === 'code' || !normalise(text).split('\n').every(isBlank),
  );
  const writer = new Writer((frame.bom ? '\ufeff' : '') + head);
  if (cells.length > 0 && head !== '' && !/[\r\n]$/.test(head)) writer.add(eol);
  cells.forEach((cell, at) => {
    const last = at === cells.length - 1;
    if (cell.kind === 'code') writeCode(writer, cell, eol, last);
    else writer.add(proseText(cell, eol));
    if (last) writer.add(tailOf(frame, eol, writer.text));
    else writeGap(writer, cell, cells[at + 1], eol);
  });
  return new TextEncoder().encode(writer.text);
}

/** What ends the file. An empty last line, of an unclosed cell, is one only if it ends. */
const tailOf = ({ tail }: Frame, eol: Eol, text: string): string =>
  tail === '' && /[\r\n]$/.test(text) ? eol : (tail ?? eol);

/** Text being written, and what is open in it: what a fence means depends on what stands above. */
class Writer {
  /** Kept apart until the end: to look at the end of one long text would copy it each time. */
  readonly #parts: string[];
  /** The last character written. */
  #end: string;
  #state: BlockState = atStart;
  /** The last line, still without an end. */
  #line = '';

  constructor(head: string) {
    this.#parts = [head];
    this.#end = head.slice(-1);
  }

  get text(): string {
    return this.#parts.join('');
  }

  add(text: string): void {
    const added = append(this.#end, text).slice(this.#end.length);
    this.#parts.push(added);
    this.#end = added === '' ? this.#end : added.slice(-1);
    const lines = splitLines(this.#line + added);
    this.#line = '';
    for (const { text: line, eol } of lines) {
      this.#line = eol ? '' : line;
      if (eol) this.#state = readLine(this.#state, line).state;
    }
  }

  /** What is open below the line being written. */
  get below(): BlockState {
    return readLine(this.#state, this.#line).state;
  }

  /** Whether a line written now opens a cell: at the top level, not in HTML or in another fence. */
  opensCell(line: string): boolean {
    const { role } = readLine(this.#state, line);
    return role.kind === 'open' && role.top;
  }
}

function proseText(cell: NotebookCell, eol: Eol): string {
  const text = normalise(cell.text);
  const body = cell.raw?.body;
  if (body === undefined || cell.raw?.open !== undefined) return text.replaceAll('\n', eol);
  const lines = bodyLines(body, false);
  return editLines(
    lines,
    lines.map((line) => line.text),
    text,
    { indent: '', eol, ended: false },
  );
}

/** The end of a cell's last line and the blank lines up to the next cell; closes what would swallow that. */
function writeGap(writer: Writer, cell: NotebookCell, next: NotebookCell, eol: Eol): void {
  let gap = cell.raw?.gap ?? eol + eol;
  if (/[^ \t\r\n]/.test(gap)) gap = eol + eol;
  if (!/^[\r\n]/.test(gap)) gap = eol + gap;
  const { containers, leaf } = writer.below;
  const top = containers.length === 0;
  if (cell.kind === 'prose' && top && leaf.kind === 'fence') {
    writer.add(eol + leaf.fence.mark.repeat(leaf.fence.length));
  } else if (cell.kind === 'prose' && top && leaf.kind === 'html' && leaf.block.closer)
    writer.add(eol + leaf.block.closer);
  const apart = hasBlankLine(gap);
  const proseTwice = cell.kind === 'prose' && next.kind === 'prose';
  if (!apart && (proseTwice || (top && leaf.kind === 'html') || next.raw?.glued !== true)) gap += eol;
  writer.add(gap);
}

function writeCode(writer: Writer, cell: NotebookCell, eol: Eol, last: boolean): void {
  const raw = cell.raw ?? {};
  const closed = raw.close !== '' || !last;
  let open = openingOf(cell, eol);
  let close = raw.close ?? plainClose;
  let body = codeBody(cell, open, eol, closed);
  // Below a list an indented fence would belong to the last item: there it goes to the left margin.
  if (!writer.opensCell(open.replace(/[\r\n]+$/, ''))) {
    open = open.trimStart();
    close = close.trimStart();
    body = plainBody(normalise(cell.text), eol, closed);
  }
  const fence = readFence(open)!;
  const longest = splitLines(body).reduce((most, { text }) => Math.max(most, closerLength(fence.mark, text)), 0);
  const run = fence.mark.repeat(Math.max(fence.length, longest + 1));
  if (run.length > fence.length) open = open.replace(fence.mark.repeat(fence.length), run);
  if ((body !== '' || closed) && !/[\r\n]$/.test(open)) open += eol;
  writer.add(append(open, body) + (closed ? closingOf(close, fence, run) : ''));
}

/** The cell's opening line with its line end, if it has one. */
function openingOf({ raw, language = cellLanguage }: NotebookCell, eol: Eol): string {
  const fence = raw?.open === undefined ? null : readFence(raw.open);
  if (!fence || raw?.open === undefined) return '```' + language + eol;
  const word = firstWord(fence.info);
  return word === language ? raw.open : raw.open.replace(word, language);
}

/** The closing line: the file's own where it still closes the fence, else the bare fence. */
function closingOf(close: string, fence: Fence, run: string): string {
  return closerLength(fence.mark, close) >= run.length ? close : ' '.repeat(fence.indent) + run;
}

function codeBody(cell: NotebookCell, open: string, eol: Eol, closed: boolean): string {
  const text = normalise(cell.text);
  const indent = readFence(open)?.indent ?? 0;
  const wasClosed = cell.raw?.close !== '';
  const before = cell.raw?.body ?? plainBody(text, eol, wasClosed);
  const lines = bodyLines(before, wasClosed);
  const shown = lines.map((line) => unindent(line.text, indent));
  return editLines(lines, shown, text, { indent: ' '.repeat(indent), eol, ended: closed });
}

import { success, type Success } from '../result/result.ts';
import { atStart, readLine } from './blocks.ts';
import {
  cellLanguage,
  type Frame,
  type Notebook,
  type NotebookCell,
  type Notice,
  type RawCell,
  type Unreadable,
} from './cells.ts';
import { conflictIn, decode, linesOf } from './decode.ts';
import { firstWord, unindent, type Fence } from './fence.ts';
import { dominantEol, isBlank, joinLines, type Eol, type Line } from './lines.ts';
import { tell } from './messages.ts';
import { hasBlankLine, plainBody, plainClose, plainOpen } from './plain.ts';

/** A stretch of whole lines: a cell's block, or what stands between two. `line` is 0-based. */
type Segment =
  | { readonly kind: 'prose'; readonly line: number; readonly lines: Line[] }
  | { readonly kind: 'code'; readonly line: number; readonly fence: Fence; readonly lines: Line[]; closed: boolean };

/**
 * Reads a notebook file. Every byte is kept: in a cell's text, in its `raw`, or in the `frame`, so that
 * {@link serializeNotebook} of the result gives the same bytes.
 *
 * @returns the notebook, or why not when the bytes are no UTF-8 or hold marks of an unfinished merge
 */
export function parseNotebook(bytes: Uint8Array): Success<Notebook> | Unreadable {
  const decoded = decode(bytes);
  if (!decoded.ok) return decoded;
  const text = decoded.value;
  const lines = linesOf(text);
  const conflict = conflictIn(lines);
  if (conflict) return conflict;
  const { segments, notices } = segment(lines);
  const eol = dominantEol(lines);
  const { cells, head, tail } = modelOf(segments, eol);
  const frame: Frame = {
    ...(text.startsWith('\ufeff') && { bom: true }),
    ...(eol !== '\n' && { eol }),
    ...(head !== '' && { head }),
    ...(cells.length > 0 && tail !== eol && { tail }),
  };
  return success({ cells, frame, notices });
}

/** Cuts a file into its cells' blocks and the prose between them. */
function segment(lines: readonly Line[]): { segments: Segment[]; notices: Notice[] } {
  const segments: Segment[] = [];
  const notices: Notice[] = [];
  let state = atStart;
  let open: (Segment & { kind: 'code' }) | null = null;
  for (let at = 0; at < lines.length; at++) {
    const step = readLine(state, lines[at].text);
    state = step.state;
    if (open) {
      open.lines.push(lines[at]);
      if (step.role.kind === 'close') [open.closed, open] = [true, null];
      continue;
    }
    if (step.role.kind === 'open') {
      if (step.role.top && firstWord(step.role.fence.info) === cellLanguage) {
        open = { kind: 'code', line: at, fence: step.role.fence, lines: [lines[at]], closed: false };
        segments.push(open);
        continue;
      }
      const notice = noticeOf(step.role.fence, step.role.top, at + 1);
      if (notice) notices.push(notice);
    }
    const last = segments.at(-1);
    if (last?.kind === 'prose') last.lines.push(lines[at]);
    else segments.push({ kind: 'prose', line: at, lines: [lines[at]] });
  }
  if (open) {
    const line = open.line + 1;
    notices.push({ ...tell('unclosed-cell', { line }), line });
  }
  return { segments, notices };
}

function noticeOf(fence: Fence, top: boolean, line: number): Notice | null {
  const word = firstWord(fence.info);
  if (word.toLowerCase() !== cellLanguage) return null;
  if (word !== cellLanguage) return { ...tell('misspelt-cell', { line, word }), line };
  return top ? null : { ...tell('nested-cell', { line }), line };
}

interface Model {
  readonly cells: readonly NotebookCell[];
  readonly head: string;
  readonly tail: string;
}

/** Makes cells of segments: blank lines at the ends of prose go into the gaps between the cells. */
function modelOf(segments: readonly Segment[], eol: Eol): Model {
  const parts: { cell: NotebookCell; raw: Omit<RawCell, 'gap' | 'glued'>; gap: string }[] = [];
  let head = '';
  const addBlank = (blank: string): void => {
    if (parts.length === 0) head += blank;
    else parts[parts.length - 1].gap += blank;
  };
  for (const part of segments) {
    if (part.kind === 'code') parts.push(codeOf(part, eol));
    else {
      const first = part.lines.findIndex(({ text }) => !isBlank(text));
      if (first < 0) {
        addBlank(joinLines(part.lines));
        continue;
      }
      addBlank(joinLines(part.lines.slice(0, first)));
      const last = part.lines.findLastIndex(({ text }) => !isBlank(text));
      const prose = proseOf(part.lines.slice(first, last + 1), part.line + first, eol);
      parts.push({ ...prose, gap: prose.gap + joinLines(part.lines.slice(last + 1)) });
    }
  }
  const cells = parts.map(({ cell, raw, gap }, at) => {
    const ends = at === parts.length - 1;
    const all: RawCell = {
      ...raw,
      ...(!ends && gap !== eol + eol && { gap }),
      ...(at > 0 && !hasBlankLine(parts[at - 1].gap) && { glued: true }),
    };
    return Object.keys(all).length > 0 ? { ...cell, raw: all } : cell;
  });
  return { cells, head, tail: parts[parts.length - 1]?.gap ?? '' };
}

function proseOf(lines: readonly Line[], at: number, eol: Eol): { cell: NotebookCell; raw: RawCell; gap: string } {
  const last = lines[lines.length - 1];
  const body = joinLines(lines.slice(0, -1)) + last.text;
  const text = lines.map((line) => line.text).join('\n');
  const raw = body === text.replaceAll('\n', eol) ? {} : { body };
  return { cell: { kind: 'prose', text, line: at + 1 }, raw, gap: last.eol };
}

function codeOf(part: Segment & { kind: 'code' }, eol: Eol): { cell: NotebookCell; raw: RawCell; gap: string } {
  const lines = [...part.lines];
  const last = lines.pop()!;
  const gap = last.eol;
  if (!part.closed) lines.push({ text: last.text, eol: '' });
  const [opening, ...bodyLines] = lines;
  const open = opening.text + opening.eol;
  const body = joinLines(bodyLines);
  const text = bodyLines.map((line) => unindent(line.text, part.fence.indent)).join('\n');
  const close = part.closed ? last.text : '';
  const raw: RawCell = {
    ...(open !== plainOpen + eol && { open }),
    ...(body !== plainBody(text, eol, part.closed) && { body }),
    ...(close !== plainClose && { close }),
  };
  return { cell: { kind: 'code', text, line: part.line + 2 }, raw, gap };
}

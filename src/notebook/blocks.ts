import { closesFence, readFence, type Fence } from './fence.ts';
import { htmlBlockAt, type HtmlBlock } from './htmlBlock.ts';
import { expandTabs } from './lines.ts';
import { startsTable } from './pipeTable.ts';

/** A block quote, or a list item whose content stands `indent` columns to the right. */
type Container =
  { readonly kind: 'quote' } | { readonly kind: 'item'; readonly indent: number; readonly empty: boolean };

/** The innermost block that the next line may go on with. A paragraph keeps its last line: it may head a table. */
type Leaf =
  | { readonly kind: 'none' | 'code' | 'table' }
  | { readonly kind: 'paragraph'; readonly last: string }
  | { readonly kind: 'fence'; readonly fence: Fence }
  | { readonly kind: 'html'; readonly block: HtmlBlock };

/** What is open between two lines of a Markdown text. */
export interface BlockState {
  readonly containers: readonly Container[];
  readonly leaf: Leaf;
}

/** A line's part in the fences of the text; `top`: not within a list or a quote. */
export type Role =
  | { readonly kind: 'open'; readonly top: boolean; readonly fence: Fence }
  | { readonly kind: 'inside' | 'close'; readonly top: boolean }
  | { readonly kind: 'other' };

export interface Step {
  readonly state: BlockState;
  readonly role: Role;
}

const none: Leaf = { kind: 'none' };
const other: Role = { kind: 'other' };

/** The state before the first line. */
export const atStart: BlockState = { containers: [], leaf: none };

/**
 * Reads one line (without its line end) as CommonMark's block structure does (spec, appendix "A parsing
 * strategy", phase 1), with pipe tables. Only what decides where fences begin and end is kept.
 */
export function readLine(state: BlockState, line: string): Step {
  const text = expandTabs(line);
  const { depth, at } = matchContainers(state.containers, text);
  const whole = depth === state.containers.length;
  if (whole) {
    const gone = goOnWithLeaf(state, text.slice(at));
    if (gone) return gone;
  }
  return openBlocks(state, depth, text.slice(at));
}

/** How many of the open containers the line belongs to, and the column at which their content begins. */
function matchContainers(containers: readonly Container[], text: string): { depth: number; at: number } {
  let at = 0;
  for (let depth = 0; depth < containers.length; depth++) {
    const container = containers[depth];
    const rest = text.slice(at);
    const indent = indentOf(rest);
    if (container.kind === 'quote') {
      if (indent > 3 || rest[indent] !== '>') return { depth, at };
      at += indent + (rest[indent + 1] === ' ' ? 2 : 1);
    } else if (indent === rest.length) {
      if (container.empty) return { depth, at };
      at += Math.min(indent, container.indent);
    } else if (indent >= container.indent) at += container.indent;
    else return { depth, at };
  }
  return { depth: containers.length, at };
}

/** The step of a line that an open fence, HTML block or indented code takes whatever it holds. */
function goOnWithLeaf({ containers, leaf }: BlockState, rest: string): Step | null {
  const top = containers.length === 0;
  switch (leaf.kind) {
    case 'fence':
      if (closesFence(leaf.fence, rest)) return { state: { containers, leaf: none }, role: { kind: 'close', top } };
      return { state: { containers, leaf }, role: { kind: 'inside', top } };
    case 'html':
      if (leaf.block.end === null) return blank(rest) ? null : { state: { containers, leaf }, role: other };
      return { state: { containers, leaf: leaf.block.end.test(rest) ? none : leaf }, role: other };
    case 'code':
      return blank(rest) || indentOf(rest) >= 4 ? { state: { containers, leaf }, role: other } : null;
    case 'none':
    case 'paragraph':
    case 'table':
      return null;
  }
}

/** Opens the containers that the rest of a line begins, then its leaf. */
function openBlocks(state: BlockState, depth: number, from: string): Step {
  const whole = depth === state.containers.length;
  let rest = from;
  let containers = state.containers.slice(0, depth);
  if (!blank(rest)) containers = containers.map(filled);
  let leaf = whole ? state.leaf : none;
  // A paragraph in a container whose mark this line lacks: plain text still goes on with it.
  let lazy = !whole && state.leaf.kind === 'paragraph';
  for (;;) {
    if (blank(rest)) return { state: { containers, leaf: none }, role: other };
    if (leaf.kind === 'paragraph' && startsTable(leaf.last, rest.trimStart())) {
      return { state: { containers, leaf: { kind: 'table' } }, role: other };
    }
    const opened = containers.length < deepest ? containerAt(rest, leaf.kind === 'paragraph') : null;
    if (!opened) break;
    containers = [...containers, opened.container];
    rest = opened.rest;
    leaf = none;
    lazy = false;
  }
  const opened = leafAt(rest, leaf, lazy);
  if (opened === 'lazy') return { state: { ...state, leaf: { kind: 'paragraph', last: '' } }, role: other };
  const top = containers.length === 0;
  const role: Role = opened.kind === 'fence' ? { kind: 'open', top, fence: opened.fence } : other;
  return { state: { containers, leaf: opened }, role };
}

/** Marks of more quotes and items within one another are text, as viewers have it: each line is read through all of them. */
const deepest = 100;

const thematicBreak = /^(?:(?:\* *){3,}|(?:_ *){3,}|(?:- *){3,})$/;

/** The quote or list item that `rest` begins, with what follows its mark. */
function containerAt(rest: string, inParagraph: boolean): { container: Container; rest: string } | null {
  const indent = indentOf(rest);
  const body = rest.slice(indent);
  if (indent > 3) return null;
  if (body[0] === '>') return { container: { kind: 'quote' }, rest: body.slice(body[1] === ' ' ? 2 : 1) };
  const match = /^(?:[*+-]|(\d{1,9})[.)])(?= |$)/.exec(body);
  if (!match || thematicBreak.test(body)) return null;
  const mark = match[0].length;
  const content = body.slice(mark);
  const empty = blank(content);
  // Only a list that begins with 1, and an item that holds something, may break into a paragraph.
  if (inParagraph && (empty || Number(match.at(1) ?? 1) !== 1)) return null;
  const blanks = indentOf(content);
  const gap = empty || blanks > 4 ? 1 : blanks;
  return { container: { kind: 'item', indent: indent + mark + gap, empty }, rest: content.slice(gap) };
}

/** The leaf that stands open after a line with text, `rest`, that begins no container. */
function leafAt(rest: string, leaf: Leaf, lazy: boolean): Leaf | 'lazy' {
  const indent = indentOf(rest);
  const body = rest.slice(indent);
  const text = leaf.kind === 'paragraph';
  if (indent > 3) return lazy ? 'lazy' : text ? { kind: 'paragraph', last: '' } : { kind: 'code' };
  const fence = readFence(rest);
  if (fence) return { kind: 'fence', fence };
  const block = htmlBlockAt(body, text || lazy || leaf.kind === 'table');
  if (block) return block.end?.test(body) ? none : { kind: 'html', block };
  if (/^#{1,6}(?: |$)/.test(body) || thematicBreak.test(body)) return none;
  if (text && /^(?:=+|-+) *$/.test(body)) return none;
  if (lazy) return 'lazy';
  if (leaf.kind === 'table' && body.trim() !== '') return leaf;
  if (!text && linkDefinition.test(body)) return none;
  return { kind: 'paragraph', last: body };
}

/** A link definition on one line; the next line begins a block of its own. */
const linkDefinition =
  /^\[(?=[^\]]*[^\s\]])(?:[^[\]\\]|\\.)+\]: *(?:<[^<>]*>|[^\s<]\S*)(?: +(?:"[^"]*"|'[^']*'|\([^()]*\)))? *$/;

const indentOf = (text: string): number => /^ */.exec(text)![0].length;

const blank = (text: string): boolean => indentOf(text) === text.length;

const filled = (container: Container): Container =>
  container.kind === 'item' && container.empty ? { ...container, empty: false } : container;

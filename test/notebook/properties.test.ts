import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import MarkdownIt from 'markdown-it';
import type { Notebook, NotebookCell } from '../../src/notebook/cells.ts';
import { parseNotebook } from '../../src/notebook/parse.ts';
import { serializeNotebook } from '../../src/notebook/serialize.ts';
import { madeUpFile, madeUpText } from './madeUp.ts';

const runs = { numRuns: 2000 };

function open(text: string): Notebook {
  const result = parseNotebook(new TextEncoder().encode(text));
  assert.ok(result.ok);
  return result.value;
}

const textOf = (notebook: Pick<Notebook, 'cells' | 'frame'>): string =>
  new TextDecoder('utf-8', { ignoreBOM: true }).decode(serializeNotebook(notebook));

const codeOf = ({ cells }: Pick<Notebook, 'cells'>): string[] =>
  cells.filter(({ kind }) => kind === 'code').map(({ text }) => text);

/** Whether no two prose cells meet: such two are one Markdown text, in which the one may indent the other. */
const proseApart = (cells: readonly NotebookCell[]): boolean =>
  cells.every(({ kind }, at) => kind === 'code' || cells[at + 1]?.kind !== 'prose');

/** The file `text` up to the last line of its first `count` cells, without the end of that line. */
function upTo(text: string, { cells, frame }: Notebook, count: number): string {
  if (count === 0) return '';
  if (count === cells.length) return text.slice(0, text.length - (frame.tail ?? frame.eol ?? '\n').length);
  return textOf({ cells: cells.slice(0, count), frame: { ...frame, tail: '' } });
}

const md = new MarkdownIt({ html: true });

/** The cells of a text as markdown-it sees them: line of the first body line, and body. */
function oracle(text: string): [number, string][] {
  return md
    .parse(text.replace(/^\ufeff/, ''), {})
    .filter(({ type, level, info }) => type === 'fence' && level === 0 && info.trim().split(/\s+/)[0] === 'washboard')
    .map(({ map, content }) => [map![0] + 2, content.replace(/\n$/, '')]);
}

/**
 * Below text in a list or a quote, a line indented by four or more goes on with that text (CommonMark 5.1, 5.2);
 * markdown-it ends the text there when the line looks like the beginning of a block.
 */
const oddLazyLine = /^\ufeff? {0,3}(?:>|[-+*]|\d+[.)])[^]*[^\s][^\r\n]*[\r\n]{1,2}(?: {4,}| *\t)[ \t]*[`~<>#*+_\d|-]/m;

describe('of any made-up Markdown file', () => {
  it('(a) opening and saving changes no byte', () => {
    fc.assert(
      fc.property(madeUpFile, (text) => assert.equal(textOf(open(text)), text)),
      runs,
    );
  });

  it('(b) editing one code cell leaves all that stands before and after its lines', () => {
    fc.assert(
      fc.property(madeUpFile, fc.nat(), madeUpText, (text, pick, body) => {
        const notebook = open(text);
        const { cells, frame } = notebook;
        const codes = cells.flatMap(({ kind }, at) => (kind === 'code' ? [at] : []));
        fc.pre(codes.length > 0);
        const at = codes[pick % codes.length];
        const [before, through] = [upTo(text, notebook, at), upTo(text, notebook, at + 1)];
        assert.ok(text.startsWith(before) && text.startsWith(through));
        const saved = textOf({ cells: cells.with(at, { ...cells[at], text: body }), frame });
        assert.ok(saved.startsWith(before), 'before');
        assert.ok(saved.endsWith(text.slice(through.length)), 'after');
        assert.deepEqual(codeOf(open(saved)), codeOf({ cells: cells.with(at, { ...cells[at], text: body }) }));
      }),
      runs,
    );
  });

  it('(c) putting in, taking out and moving cells leaves the lines of the others as they were', () => {
    fc.assert(
      fc.property(madeUpFile, fc.nat(), fc.nat(), madeUpText, (text, from, to, body) => {
        const { cells, frame } = open(text);
        fc.pre(cells.length > 1);
        const moved = [...cells];
        const [one] = moved.splice(from % cells.length, 1);
        if (from % 3) moved.splice(to % cells.length, 0, one);
        if (to % 2) moved.splice(from % (moved.length + 1), 0, { kind: 'code', text: body });
        const saved = textOf({ cells: moved, frame });
        let at = 0;
        // An indented cell goes to the margin where it would fall into a list, so its lines may change.
        const kept = moved.filter((cell) => cells.includes(cell) && !cell.raw?.open?.startsWith(' '));
        for (const cell of kept) {
          const own = ownLines(cell, frame.eol ?? '\n');
          const found = saved.indexOf(own, at);
          assert.ok(found >= at, JSON.stringify({ own, saved }));
          at = found + own.length;
        }
        if (proseApart(moved)) assert.deepEqual(codeOf(open(saved)), codeOf({ cells: moved }));
      }),
      runs,
    );
  });

  it('(d) cells that are written and read again are the same cells', () => {
    const cell = fc.record({ kind: fc.constantFrom('code' as const, 'prose' as const), text: madeUpText });
    fc.assert(
      fc.property(fc.array(cell, { maxLength: 5 }), fc.constantFrom('\n', '\r\n'), (all, eol) => {
        const cells = all.filter((one) => one.kind === 'code' || codeOf(open(one.text)).length === 0);
        fc.pre(proseApart(cells));
        const saved = textOf({ cells, frame: eol === '\n' ? {} : { eol } });
        assert.deepEqual(codeOf(open(saved)), codeOf({ cells }));
        assert.equal(textOf(open(saved)), saved);
      }),
      runs,
    );
  });

  it('(e) the cells are the fences that markdown-it finds at the top level, with the same bodies', () => {
    fc.assert(
      fc.property(madeUpFile, (made) => {
        // markdown-it drops a last line that is blank and has no end, and shows NUL as U+FFFD.
        fc.pre(!oddLazyLine.test(made));
        const text = (/(^|[\r\n])[ \t]+$/.test(made) ? made + '\n' : made).replaceAll('\0', '0');
        const found = open(text).cells.filter(({ kind }) => kind === 'code');
        assert.deepEqual(
          found.map(({ line, text }) => [line, text]),
          oracle(text),
        );
      }),
      runs,
    );
  });
});

/** The lines of one cell as the file has them; of an unclosed one without the line ends, which a move may change. */
function ownLines(cell: NotebookCell, eol: '\n' | '\r\n' | '\r'): string {
  const own = textOf({ cells: [cell], frame: { ...(eol !== '\n' && { eol }), tail: '' } });
  return cell.raw?.close === '' ? own.replace(/[\r\n]+$/, '') : own;
}

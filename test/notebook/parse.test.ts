import { strict as assert } from 'node:assert';
import { readdirSync, readFileSync } from 'node:fs';
import type { Notebook } from '../../src/notebook/cells.ts';
import { parseNotebook } from '../../src/notebook/parse.ts';
import { serializeNotebook } from '../../src/notebook/serialize.ts';

const folder = new URL('fixtures/', import.meta.url);
const bytesOf = (name: string): Uint8Array => readFileSync(new URL(name, folder));

function opened(bytes: Uint8Array): Notebook {
  const result = parseNotebook(bytes);
  assert.ok(result.ok);
  return result.value;
}

const a = 'a = 1 s';
const b = 'b = 2 s';
const c = 'c = 3 s';

/** The text of each code cell, with the line of the file where it begins. */
const cells: Record<string, [line: number, text: string][]> = {
  backslashes: [[6, 'a = "C:\\\\"\n\\```']],
  'blanks-around': [[5, a]],
  'byte-order-mark': [[2, a]],
  'byte-order-mark-crlf': [[4, a]],
  'closing-with-words': [[2, `${a}\n\`\`\` end\n${b}\n\`\`\n    \`\`\``]],
  'control-characters': [[4, 'a = 1 s\f\n\0']],
  crlf: [[6, `${a}\n${b}`]],
  'divided-headings': [[7, a]],
  empty: [],
  'empty-cells': [
    [2, ''],
    [5, ''],
    [9, '\n\n   '],
  ],
  'fence-in-fence': [[8, b]],
  'fence-in-tildes': [[8, `${b}\n~~~`]],
  'front-matter': [[11, a]],
  'front-matter-only': [],
  'glued-to-prose': [
    [3, a],
    [7, b],
    [10, c],
  ],
  'heading-like-body': [
    [2, '# Spectrum of run 3\n---\n===\n> q\n- l\n<!--'],
    [11, a],
  ],
  'html-comment': [[9, b]],
  'html-comment-unclosed': [[2, a]],
  'html-details': [[12, b]],
  'html-lone-tag': [[9, b]],
  'html-pre': [[9, b]],
  'indented-fences': [
    [2, a],
    [6, 'a = 2 s\nb = 3 s\n c = 4 s'],
    [12, ' d = 5 s'],
  ],
  'inline-backticks': [[6, a]],
  'lazy-lines': [
    [4, a],
    [17, b],
  ],
  'link-definitions': [[9, a]],
  'list-then-margin': [
    [3, a],
    [8, b],
    [14, c],
  ],
  'lone-carriage-returns': [[4, `${a}\n${b}`]],
  'long-lines': [[4, `# ${'y'.repeat(20000)}`]],
  'mixed-line-ends': [[6, `${a}\n${b}\n${c}`]],
  'nested-in-list': [[15, c]],
  'nested-in-quote': [[7, b]],
  'no-last-newline': [[4, a]],
  'no-last-newline-in-prose': [[2, a]],
  'only-a-newline': [],
  'only-blanks': [],
  'other-languages': [[30, 'g = 1 s']],
  plain: [
    [6, 'a = load "raw/a.csv"'],
    [12, 'levels a'],
  ],
  'setext-and-rules': [
    [7, a],
    [12, b],
  ],
  'tab-indented-fence': [],
  table: [[5, a]],
  tildes: [
    [2, a],
    [6, `${b}\n~~~`],
  ],
  'trailing-blanks': [[4, 'a = 1 s   \n\t\n   \nb = 2 s\t']],
  'longer-fences': [
    [2, `${a}\n\`\`\`\n${b}`],
    [8, c],
  ],
  'unclosed-at-opening': [[4, '']],
  'unclosed-fence': [[4, `${a}\n\nStill the cell.\n`]],
  'unclosed-fence-no-newline': [[4, `${a}\n\`\``]],
  'unclosed-other': [],
  unicode: [[4, '# µ é e\u0301 𝄞\na = 1 m/s²']],
  'whitespace-only-gap': [
    [2, a],
    [7, b],
  ],
};

describe('parseNotebook', () => {
  const names = readdirSync(new URL('nasty/', folder)).map((name) => name.slice(0, -'.md'.length));

  it('is tried on at least 30 nasty files, each with its cells told beforehand', () => {
    assert.ok(names.length >= 30);
    assert.deepEqual([...names].sort(), Object.keys(cells).sort());
  });

  for (const name of names) {
    it(`finds the cells of ${name}.md, and opening and saving it changes no byte`, () => {
      const bytes = bytesOf(`nasty/${name}.md`);
      const notebook = opened(bytes);
      const code = notebook.cells.filter(({ kind }) => kind === 'code');
      assert.deepEqual(
        code.map(({ line, text }) => [line, text]),
        cells[name],
      );
      assert.deepEqual(Buffer.from(serializeNotebook(notebook)), bytes);
    });

    it(`keeps ${name}.md also when an editor has carried cells and frame as JSON`, () => {
      const bytes = bytesOf(`nasty/${name}.md`);
      const notebook = JSON.parse(JSON.stringify(opened(bytes))) as Notebook;
      assert.deepEqual(Buffer.from(serializeNotebook(notebook)), bytes);
    });
  }

  it('gives prose between cells as one cell, without the blank lines at its ends', () => {
    const text = '\n# Title\n\n\nText.\n\n\n```washboard\na\n```\nEnd\n';
    const { cells } = opened(new TextEncoder().encode(text));
    assert.deepEqual(
      cells.map(({ kind, text }) => [kind, text]),
      [
        ['prose', '# Title\n\n\nText.'],
        ['code', 'a'],
        ['prose', 'End'],
      ],
    );
  });

  it('carries nothing beside the text of a file in the plain form', () => {
    const { cells, frame } = opened(bytesOf('nasty/plain.md'));
    assert.deepEqual(frame, {});
    assert.ok(cells.every(({ raw }) => raw === undefined));
  });

  it('tells which blocks look like cells and are none', () => {
    const notices = (name: string) => opened(bytesOf(`nasty/${name}.md`)).notices.map(({ code, line }) => [code, line]);
    assert.deepEqual(notices('nested-in-list'), [
      ['nested-cell', 3],
      ['nested-cell', 10],
    ]);
    assert.deepEqual(notices('other-languages'), [['misspelt-cell', 5]]);
    assert.deepEqual(notices('unclosed-fence'), [['unclosed-cell', 3]]);
    assert.deepEqual(notices('html-comment'), []);
  });

  const refused: Record<string, [code: string, line: number, words: RegExp]> = {
    conflict: ['conflict', 4, /unfinished merge/],
    'conflict-left-over': ['conflict', 6, /unfinished merge/],
    'conflict-crlf': ['conflict', 3, /unfinished merge/],
    'latin-1': ['not-utf8', 3, /Line 3 is not valid UTF-8/],
    'utf-16': ['not-utf8', 1, /UTF-16/],
    'cut-character': ['not-utf8', 3, /not valid UTF-8/],
    surrogate: ['not-utf8', 2, /not valid UTF-8/],
  };
  for (const [name, [code, line, words]] of Object.entries(refused)) {
    it(`refuses ${name}.md in a sentence that says the line and what to do`, () => {
      const result = parseNotebook(bytesOf(`refused/${name}.md`));
      assert.ok(!result.ok);
      assert.equal(result.failure.code, code);
      assert.equal(result.failure.line, line);
      assert.match(result.failure.message, words);
      assert.match(result.failure.message, /[Oo]pen/);
    });
  }
});

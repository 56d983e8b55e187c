import { strict as assert } from 'node:assert';
import type { Notebook, NotebookCell } from '../../src/notebook/cells.ts';
import { parseNotebook } from '../../src/notebook/parse.ts';
import { serializeNotebook } from '../../src/notebook/serialize.ts';

function open(text: string): Notebook {
  const result = parseNotebook(new TextEncoder().encode(text));
  assert.ok(result.ok);
  return result.value;
}

const textOf = (notebook: Pick<Notebook, 'cells' | 'frame'>): string =>
  new TextDecoder('utf-8', { ignoreBOM: true }).decode(serializeNotebook(notebook));

/** The file after `change` was made to the cells of `before`. */
function after(before: string, change: (cells: NotebookCell[]) => void): string {
  const notebook = open(before);
  const cells = [...notebook.cells];
  change(cells);
  return textOf({ cells, frame: notebook.frame });
}

const edited = (before: string, at: number, text: string): string =>
  after(before, (cells) => {
    cells[at] = { ...cells[at], text };
  });

const code = (text: string): NotebookCell => ({ kind: 'code', text });
const prose = (text: string): NotebookCell => ({ kind: 'prose', text });

const study = '# Pads\n\n```washboard\na = trim r 5..80 s\nlevels a\n```\n\nMore.\n';

describe('serializeNotebook, of an edited cell', () => {
  it('changes the lines that were edited alone', () => {
    assert.equal(edited(study, 1, 'a = trim r 6..80 s\nlevels a'), study.replace('5..80', '6..80'));
    assert.equal(edited(study, 0, '# Seat pads'), study.replace('# Pads', '# Seat pads'));
  });

  it("gives new lines the file's own line ends", () => {
    const windows = study.replaceAll('\n', '\r\n');
    assert.equal(
      edited(windows, 1, 'a = 1 s\nb = 2 s\nlevels a'),
      '# Pads\r\n\r\n```washboard\r\na = 1 s\r\nb = 2 s\r\nlevels a\r\n```\r\n\r\nMore.\r\n',
    );
    assert.equal(edited(windows, 2, 'More.\r\nStill more.'), windows.replace('More.', 'More.\r\nStill more.'));
  });

  it('leaves the line ends of the other lines of a mixed file', () => {
    const mixed = '```washboard\r\na\nb\r\nc\n```\r\nd\r\n';
    assert.equal(edited(mixed, 0, 'a\nB\nc'), '```washboard\r\na\nB\r\nc\n```\r\nd\r\n');
    assert.equal(edited('a\r\nb\nc\nd\n', 0, 'a\nb\nC\nd'), 'a\r\nb\nC\nd\n');
  });

  it('keeps the fence, its options, its indent and the way other lines are indented', () => {
    const before = '  ~~~~ washboard fold\n  a\n b\n    c\n   ~~~~~  \n';
    assert.equal(
      edited(before, 0, 'a\nb\n  c\n  d\n\ne'),
      '  ~~~~ washboard fold\n  a\n b\n    c\n    d\n\n  e\n   ~~~~~  \n',
    );
  });

  it('lengthens the fence when the body holds a line that would close it, and not otherwise', () => {
    assert.equal(
      edited(study, 1, 'a\n````\nb'),
      study.replace('```washboard\na = trim r 5..80 s\nlevels a\n```', '`````washboard\na\n````\nb\n`````'),
    );
    assert.equal(
      edited(study, 1, '# ``` inside\n```js'),
      study.replace('a = trim r 5..80 s\nlevels a', '# ``` inside\n```js'),
    );
    assert.equal(edited('~~~washboard x\na\n~~~\n', 0, '```\n~~~'), '~~~~washboard x\n```\n~~~\n~~~~\n');
  });

  it('fills and empties a cell', () => {
    assert.equal(edited('```washboard\n```\n', 0, 'a\nb'), '```washboard\na\nb\n```\n');
    assert.equal(edited('```washboard\n\n```\n', 0, 'a'), '```washboard\na\n```\n');
    assert.equal(edited('```washboard\na\nb\n```\n', 0, ''), '```washboard\n```\n');
    assert.equal(edited('```washboard\na\n```\n', 0, '\n'), '```washboard\n\n\n```\n');
  });

  it('leaves an unclosed last cell unclosed, and a file without a last line end without one', () => {
    assert.equal(edited('```washboard\na', 0, 'a\nb'), '```washboard\na\nb');
    assert.equal(edited('```washboard\na\n', 0, 'b\na'), '```washboard\nb\na\n');
    assert.equal(edited('```washboard', 0, 'a'), '```washboard\na');
    assert.equal(edited('```washboard\na\n```', 0, 'b'), '```washboard\nb\n```');
    assert.equal(edited('a\n\nb', 0, 'a\n\nc'), 'a\n\nc');
  });

  it('keeps the byte order mark and the blank lines around', () => {
    assert.equal(edited('\ufeff\n\n```washboard\na\n```\n \n\n', 0, 'b'), '\ufeff\n\n```washboard\nb\n```\n \n\n');
  });

  it('takes out a prose cell that was emptied', () => {
    assert.equal(edited(study, 0, ' \n'), study.replace('# Pads\n\n', ''));
  });
});

describe('serializeNotebook, of cells put in, taken out and moved', () => {
  it('writes new cells in plain fences with a blank line on either side', () => {
    assert.equal(
      after(study, (cells) => cells.splice(1, 0, code('new'), prose('Why.'))),
      study.replace('# Pads\n\n', '# Pads\n\n```washboard\nnew\n```\n\nWhy.\n\n'),
    );
    assert.equal(
      after('a\n```washboard\nb\n```\n', (cells) => cells.splice(1, 0, code('new'))),
      'a\n\n```washboard\nnew\n```\n\n```washboard\nb\n```\n',
    );
    assert.equal(
      after('', (cells) => cells.push(code('a'))),
      '```washboard\na\n```\n',
    );
    assert.equal(textOf({ cells: [prose('# T'), code('a')], frame: {} }), '# T\n\n```washboard\na\n```\n');
  });

  it('appends after a last line that had no end', () => {
    assert.equal(
      after('a', (cells) => cells.push(code('b'))),
      'a\n\n```washboard\nb\n```',
    );
  });

  it('closes an unclosed cell that is no longer the last', () => {
    assert.equal(
      after('a\n\n````washboard\nb\n\n', (cells) => cells.push(prose('c'))),
      'a\n\n````washboard\nb\n\n````\n\nc\n',
    );
  });

  it('leaves the other cells byte for byte when one is taken out', () => {
    const before = '\n# T  \n```washboard x\n a\n```\n\n\n\n  ~~~washboard\nb\n~~~\nEnd';
    assert.equal(
      after(before, (cells) => cells.splice(1, 1)),
      '\n# T  \n\n  ~~~washboard\nb\n~~~\nEnd',
    );
    assert.equal(
      after(before, (cells) => cells.pop()),
      before.slice(0, -'\nEnd'.length),
    );
    assert.equal(
      after(before, (cells) => cells.splice(0, 1)),
      before.replace('# T  \n', ''),
    );
  });

  it('keeps two paragraphs apart when the cell between them is taken out', () => {
    assert.equal(
      after('a\n```washboard\nx\n```\nb\n', (cells) => cells.splice(1, 1)),
      'a\n\nb\n',
    );
  });

  it('moves a cell with its own spelling', () => {
    const before = '~~~ washboard o\na  \n~~~~\n\n```washboard\nb\n```\n';
    assert.equal(
      after(before, (cells) => cells.reverse()),
      '```washboard\nb\n```\n\n~~~ washboard o\na  \n~~~~\n',
    );
  });

  it('closes a fence or an HTML block that was left open, so that the cells below stay cells', () => {
    const openings = ['```js\nx', '~~~~\nx', '<!-- x', '<pre>\n\nx', '<script>x', '<?php', '<![CDATA[', '<!X'];
    for (const opening of [...openings, '<div>', '<b>']) {
      const text = textOf({ cells: [prose(opening), code('a')], frame: {} });
      assert.ok(text.startsWith(opening) && text.endsWith('\n\n```washboard\na\n```\n'), text);
      assert.deepEqual(
        open(text)
          .cells.filter(({ kind }) => kind === 'code')
          .map((cell) => cell.text),
        ['a'],
        opening,
      );
    }
  });

  it('brings an indented cell to the margin where it would fall into a list', () => {
    const before = 'Text.\n\n  ```washboard\n  a\n  ```\n';
    const result = after(before, (cells) => {
      cells[0] = { ...cells[0], text: '- item' };
    });
    assert.equal(result, '- item\n\n```washboard\na\n```\n');
  });

  it('writes a cell of another language as such a block', () => {
    const cells: NotebookCell[] = [{ kind: 'code', text: 'x = 1', language: 'python' }];
    assert.equal(textOf({ cells, frame: {} }), '```python\nx = 1\n```\n');
    assert.equal(
      after('~~~washboard fold\na\n~~~\n', (all) => (all[0] = { ...all[0], language: 'js' })),
      '~~~js fold\na\n~~~\n',
    );
  });

  it('writes what it can of spelling that does not fit the cell, and no more', () => {
    const raw = { open: 'no fence\n', body: 'other\n', close: 'nor this', gap: 'lost' };
    assert.equal(
      textOf({ cells: [{ kind: 'code', text: 'a', raw }, prose('b')], frame: {} }),
      '```washboard\na\n```\n\nb\n',
    );
    assert.equal(textOf({ cells: [{ kind: 'prose', text: 'a', raw: { open: '```washboard\n' } }], frame: {} }), 'a\n');
  });
});

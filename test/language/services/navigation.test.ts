import { strict as assert } from 'node:assert';
import { parseCell } from '../../../src/language/parser.ts';
import { foldsOf } from '../../../src/language/services/folding.ts';
import { definitionAt, highlightsAt, referencesAt } from '../../../src/language/services/references.ts';
import { renamableAt, renameAt } from '../../../src/language/services/rename.ts';
import { selectionsAt } from '../../../src/language/services/selection.ts';
import { semanticTokens } from '../../../src/language/services/semanticTokens.ts';
import { symbolsOf } from '../../../src/language/services/symbols.ts';
import { vocabularyOf } from '../../../src/language/vocabulary.ts';
import { catalogue } from '../catalogue.ts';
import { validCells } from '../valid.ts';
import { marked } from './marked.ts';

const cells = [
  'r = load "a.csv"\nx = channel r x',
  'plot r¦, (spectrum r)',
  'L = levels (trim r 1..2 s)\nlvls r\nx | levels',
];

describe('names across cells', () => {
  it('are found where they are bound and everywhere they stand, a channel of the same name excepted', () => {
    const { notebook, cell, offset } = marked(...cells);
    assert.deepEqual(definitionAt(notebook, cell, offset), { cell: 0, place: { from: 0, to: 1 }, binds: true });
    const places = referencesAt(notebook, cell, offset).map(
      ({ cell: at, place, binds }) => `${at}:${place.from}${binds ? '=' : ''}`,
    );
    assert.deepEqual(places, ['0:0=', '0:29', '1:5', '1:18', '2:17', '2:32']);
    assert.deepEqual(
      highlightsAt(notebook, cell, offset).map(({ place }) => place.from),
      [5, 18],
    );
    const x = marked(...cells.map((text) => text.replace('¦', '')).with(0, 'r = load "a.csv"\nx¦ = channel r x'));
    assert.deepEqual(
      referencesAt(x.notebook, x.cell, x.offset).map(({ cell: at, place }) => `${at}:${place.from}`),
      ['0:17', '2:34'],
    );
  });

  it('are renamed everywhere at once', () => {
    const { notebook, cell, offset } = marked(...cells);
    assert.equal(renamableAt(notebook, cell, offset)?.name, 'r');
    const renamed = renameAt(notebook, cell, offset, 'stock');
    assert.ok(renamed?.ok);
    const texts = cells.map((text) => text.replace('¦', ''));
    for (const edit of [...renamed.value].reverse())
      texts[edit.cell] = texts[edit.cell].slice(0, edit.place.from) + edit.text + texts[edit.cell].slice(edit.place.to);
    assert.deepEqual(texts, [
      'stock = load "a.csv"\nx = channel stock x',
      'plot stock, (spectrum stock)',
      'L = levels (trim stock 1..2 s)\nlvls stock\nx | levels',
    ]);
  });

  it('are not renamed to what would clash', () => {
    const { notebook, cell, offset } = marked(...cells);
    const message = (to: string): string => {
      const renamed = renameAt(notebook, cell, offset, to);
      assert.ok(renamed);
      return renamed.ok ? '' : renamed.failure.message;
    };
    assert.match(message('L'), /already bound in cell 3, line 1/);
    assert.match(message('trim'), /is a verb/);
    assert.match(message('2r'), /letters, digits/);
    assert.match(message(''), /letters, digits/);
    const verb = marked('lev¦els r');
    assert.equal(renamableAt(verb.notebook, 0, verb.offset), undefined);
    assert.equal(renameAt(verb.notebook, 0, verb.offset, 'a'), undefined);
  });

  it('are symbols of their cell', () => {
    const { notebook } = marked(...cells);
    assert.deepEqual(
      symbolsOf(notebook, 0).map(({ name, detail }) => [name, detail]),
      [
        ['r', 'runs'],
        ['x', 'runs'],
      ],
    );
  });
});

describe('semanticTokens', () => {
  const look = (cell: string): string => {
    const { notebook, text } = marked(`${cell}¦`, 'r = load "a"\nL = levels r');
    return semanticTokens(notebook, 0)
      .map(
        ({ from, to, type, modifiers }) =>
          `${text.slice(from, to)}:${type}${modifiers.includes('declaration') ? '!' : ''}`,
      )
      .join(' ');
  };

  it('tell what each word turned out to be', () => {
    assert.equal(
      look('x = channel r x # why'),
      'x:variable! =:operator channel:function r:variable x:property # why:comment',
    );
    assert.equal(
      look('r | spectrum using blackman-harris 2 s'),
      'r:variable |:operator spectrum:function using:keyword blackman-harris:enumMember 2:number s:type',
    );
    assert.equal(look('trim r 5..80 m/s^2'), 'trim:function r:variable 5:number ..:operator 80:number m/s^2:type');
    assert.equal(
      look('load "a" unit m/s^2 channel x="s"'),
      'load:function "a":string unit:keyword m/s^2:type channel:keyword x:property =:operator "s":string',
    );
    assert.equal(look('sqrt(L.rms)/pi'), 'sqrt:macro L:variable rms:property /:operator pi:variable');
  });

  it('never overlap and stay in order', () => {
    for (const cell of validCells) {
      const { notebook } = marked(`${cell}¦`);
      const tokens = semanticTokens(notebook, 0);
      tokens.forEach(({ from, to }, i) => assert.ok(from < to && (i === 0 || from >= tokens[i - 1].to)));
    }
  });
});

describe('foldsOf', () => {
  it('folds statements over several lines and blocks of comments', () => {
    const cell = parseCell('# a\n# b\nr\n  | detrend\n  | levels # c\n# d\nx', vocabularyOf(catalogue));
    assert.deepEqual(foldsOf(cell), [
      { from: 0, to: 1, kind: 'comment' },
      { from: 2, to: 4, kind: 'statement' },
    ]);
  });
});

describe('selectionsAt', () => {
  it('grow from the word to the cell', () => {
    const { notebook, offset, text } = marked('x = band (spectrum ¦r) 10..50 Hz\ny = 1');
    const grown = selectionsAt(notebook.cells[0], offset).map(({ from, to }) => text.slice(from, to));
    assert.deepEqual(grown, [
      'r',
      'spectrum r',
      '(spectrum r)',
      'band (spectrum r) 10..50 Hz',
      'x = band (spectrum r) 10..50 Hz',
      text,
    ]);
  });

  it('are each inside the next, at every place of every valid cell', () => {
    for (const text of validCells) {
      const cell = parseCell(text, vocabularyOf(catalogue));
      for (let at = 0; at <= text.length; at++) {
        const grown = selectionsAt(cell, at);
        grown.forEach(({ from, to }, i) =>
          assert.ok(from <= at && at <= to && (i === 0 || (from <= grown[i - 1].from && to >= grown[i - 1].to))),
        );
      }
    }
  });
});

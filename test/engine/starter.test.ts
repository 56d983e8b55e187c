import { strict as assert } from 'node:assert';
import { starterNotebook } from '../../src/engine/starter.ts';
import { checkCells } from '../../src/engine/checkCells.ts';

const cellsOf = (text: string): string[] =>
  [...text.matchAll(/^```washboard\n([\s\S]*?)\n```$/gm)].map((match) => match[1]);

describe('a notebook that begins with files', () => {
  it('loads each set of runs by a pattern where that means just its files', () => {
    const files = ['raw/foam-1.csv', 'raw/foam-2.csv', 'raw/gel-1.csv'];
    const cells = cellsOf(starterNotebook(files, [...files, 'raw/notes.csv']));
    assert.match(cells[0], /^foam = load "raw\/foam-\*\.csv"$/m);
    assert.match(cells[1], /^gel = load "raw\/gel-1\.csv"$/m);
  });

  it('names the files one by one where a pattern would take in more', () => {
    const cells = cellsOf(
      starterNotebook(['raw/foam-1.csv', 'raw/foam-2.csv'], ['raw/foam-1.csv', 'raw/foam-2.csv', 'raw/foam-3.csv']),
    );
    assert.match(cells[0], /load "raw\/foam-1\.csv", "raw\/foam-2\.csv"/);
  });

  it('finds for every set a name that the language allows, once', () => {
    for (const names of [
      ['1.csv', '2.csv'],
      ['load-1.csv', 'load-2.csv'],
      ['a/x.csv', 'b/x.csv'],
      ['Läufe 01.csv'],
      ['hann.txt'],
      ['run-09.csv.gz', 'run-10.csv.gz'],
    ]) {
      const text = starterNotebook(names, names);
      const wrong = checkCells(cellsOf(text)).statements.flatMap(({ problems }) =>
        problems.filter(({ severity }) => severity === 'error'),
      );
      assert.deepEqual(
        wrong.map(({ message }) => message),
        [],
        names.join(', '),
      );
    }
  });

  it('does not cut a number in two', () => {
    const files = ['run-09.csv', 'run-10.csv', 'run-11.csv'];
    assert.match(cellsOf(starterNotebook(files, files))[0], /load "run-\*\.csv"/);
  });
});

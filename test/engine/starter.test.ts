import { strict as assert } from 'node:assert';
import { starterNotebook } from '../../src/engine/starter.ts';
import { checkCells } from '../../src/engine/checkCells.ts';

const cellsOf = (text: string): string[] =>
  [...text.matchAll(/^```washboard\n([\s\S]*?)\n```$/gm)].map((match) => match[1]);

const loadsOf = (text: string): string[] => cellsOf(text).filter((cell) => cell.includes(' = load '));

describe('a notebook that begins with files', () => {
  it('loads each set of runs by a pattern where that means just its files', () => {
    const files = ['raw/foam-1.csv', 'raw/foam-2.csv', 'raw/gel-1.csv'];
    const cells = loadsOf(starterNotebook(files, [...files, 'raw/notes.csv']));
    assert.match(cells[0], /^foam = load "raw\/foam-\*\.csv"$/m);
    assert.match(cells[1], /^gel = load "raw\/gel-1\.csv"$/m);
  });

  it('names the files one by one where a pattern would take in more', () => {
    const cells = loadsOf(
      starterNotebook(['raw/foam-1.csv', 'raw/foam-2.csv'], ['raw/foam-1.csv', 'raw/foam-2.csv', 'raw/foam-3.csv']),
    );
    assert.match(cells[0], /load "raw\/foam-1\.csv", "raw\/foam-2\.csv"/);
  });

  it('leaves out files whose names a notebook cannot write as they are, and shows these with visible escapes', () => {
    const odd = ['a"b.csv', 'a\\b.csv', 'a\nb.csv', 'a\u001bb.csv', 'a\u202eb.csv'];
    const fine = ['a#c.csv', 'a%20d.csv', "a'e.csv", 'a😀f.csv', 'a[g].csv'];
    const text = starterNotebook([...odd, ...fine], [...odd, ...fine]);
    const loads = loadsOf(text);
    assert.deepEqual(
      loads.map((cell) => /= load "(.*)"$/m.exec(cell)?.[1]),
      fine,
    );
    for (const name of ['a"b.csv', 'a\\b.csv', 'a\\u000ab.csv', 'a\\u001bb.csv', 'a\\u202eb.csv'])
      assert.ok(text.includes(`\n- \`\` ${name} \`\`\n`), name);
    assert.doesNotMatch(text, /[\u001b\u202e]/);
    assert.doesNotMatch(starterNotebook(fine, fine), /Not loaded/);
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
    assert.match(loadsOf(starterNotebook(files, files))[0], /load "run-\*\.csv"/);
  });

  it('asks for no band that the rate of the recordings does not reach', () => {
    const files = ['a-1.csv', 'b-1.csv'];
    for (const rate of [2, 25, 100, 200, 1000]) {
      const text = starterNotebook(files, files, { channel: 'z', rate, seconds: 3.5 });
      const edges = [...text.matchAll(/\.\.(\d[\d.]*) Hz/g)].map((match) => Number(match[1]));
      assert.ok(edges.length > 1 && edges.every((edge) => edge > 0 && edge < rate / 2), `${rate}: ${edges.join(' ')}`);
    }
  });

  it('takes a stretch that lies within the shortest recording, and writes a channel as the language does', () => {
    const text = starterNotebook(['a-1.csv', 'b-1.csv'], [], { channel: 'Acc Z', rate: 100, seconds: 3.5 });
    assert.match(text, /a_part = a \| channel "Acc Z" \| trim 0\.35\.\.3\.15 s/);
  });
});

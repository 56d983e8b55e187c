import { strict as assert } from 'node:assert';
import { recordingOf, rows } from '../memory.ts';
import { findLabelled } from '../../../src/readers/text/labelled.ts';

const found = (...lines: string[]): ReturnType<typeof findLabelled> =>
  findLabelled(lines.map((text, i) => ({ text, line: i + 1 })));

describe('findLabelled', () => {
  it('reads the numbers between words that are the same in all lines, and their names', () => {
    const labelled = found('X: 1.5 Y: -2 Z: .25', 'X: 2.5 Y: 3 Z: 1e-3');
    assert.deepEqual(labelled?.names, ['X', 'Y', 'Z']);
    assert.equal(labelled?.fields('X: 7 Y: 8 Z: 9'), '7\t8\t9');
    assert.equal(labelled?.fields('X: 7 W: 8 Z: 9'), undefined);
  });

  it('reads a list of names before a list of numbers, behind a clock', () => {
    const line = (z: string): string => `12:00:01.250 -> X,Y,Z= -1.84,2.93,${z}`;
    const labelled = found(line('-9.22'), line('-9.5'));
    assert.deepEqual(labelled?.names, ['time', 'X', 'Y', 'Z']);
    assert.equal(labelled?.fields(line('1')), '12:00:01.250\t-1.84\t2.93\t1');
  });

  it('reads units behind the numbers', () => {
    assert.deepEqual(found('x 0.98 g, t 5 ms', 'x 0.99 g, t 6 ms')?.units, ['g', 'ms']);
  });

  it('takes commas within numbers for decimal ones where after each word there is one and no point', () => {
    const labelled = found('X=0,12 Y=0,34', 'X=0,13 Y=0,35');
    assert.equal(labelled?.decimal, ',');
    assert.equal(labelled?.fields('X=1,5 Y=2,5'), '1,5\t2,5');
    assert.equal(found('X: 1 Y: 2', 'X: 3 Y: 4')?.decimal, '.');
    assert.equal(found('X,Y=0.1,0.3', 'X,Y=0.2,0.4')?.decimal, '.');
    assert.equal(found('X,Y,Z=1,2,3', 'X,Y,Z=2,3,4')?.decimal, '.');
  });

  it('needs two lines of one form, which are half of all of them, and a letter or bracket', () => {
    assert.equal(found('X: 1'), undefined);
    assert.ok(found('X: 1', 'X: 2'));
    assert.ok(found('X: 1', 'started', 'X: 2', 'ended'));
    assert.equal(found('X: 1', 'started', 'X: 2', 'ended', 'bye'), undefined);
    assert.equal(found('1, 2', '3, 4'), undefined);
    assert.ok(found('[1, 2]', '[3, 4]'));
  });

  it('takes no line that is too long', () => {
    const line = (value: number, length: number): string => `X: ${value}`.padEnd(length, ' ');
    assert.ok(found(line(1, 1000), line(2, 1000)));
    assert.equal(found(line(1, 1000), line(2, 1001)), undefined);
  });
});

describe('lines of words and numbers', () => {
  const namesOf = async (text: string): Promise<readonly string[]> =>
    (await recordingOf(text, { rate: 100, unit: 'g' })).channels.map(({ name }) => name);
  const swing = (i: number, k: number): string => Math.sin(i * (k + 1)).toFixed(3);

  it('have the names that stand in a row right above, where their own words are none', async () => {
    const lines = rows(60, (i) => [`(${swing(i, 0)} | ${swing(i, 1)})`]);
    for (const above of ['front,rear', "'front';'rear'", '# front | rear'])
      assert.deepEqual(await namesOf(`${above}\n${lines}`), ['front', 'rear'], above);
  });

  it('are a table where a delimiter parts its columns of words, and where its words change', async () => {
    const state = (i: number): string => (i < 12 ? 'on' : 'off');
    const mode = (i: number): string => (i < 12 ? 'slow' : 'fast');
    const parted = await recordingOf(
      `t (s);state;z (g);mode\n${rows(60, (i) => [i / 100, 'on', swing(i, 0), 'slow'], ';')}`,
    );
    assert.deepEqual([parted.layout.delimiter, parted.layout.rows], [';', 60]);
    const changing = await recordingOf(
      `t state z mode\n${rows(20, (i) => [(i / 100).toFixed(2), state(i), swing(i, 0), mode(i)], ' ')}`,
      { unit: 'g' },
    );
    assert.deepEqual([changing.layout.delimiter, changing.layout.rows], [' ', 20]);
  });
});

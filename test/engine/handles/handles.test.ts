import { strict as assert } from 'node:assert';
import type { Handle } from '../../../src/charts/handle.ts';
import { Engine } from '../../../src/engine/engine.ts';
import { MemoryHost, quietWatch, recording } from '../memoryFiles.ts';

const host = (): MemoryHost =>
  new MemoryHost({ 'raw/a 1.csv': recording({ seed: 1 }), 'raw/a 2.csv': recording({ seed: 2 }) });
const loaded = 'runs = load "raw/*.csv" | channel z';

/** The handles of the last statement of cells, by name. */
async function handles(...cells: readonly string[]): Promise<readonly Handle[]> {
  const engine = new Engine(host());
  const report = await engine.run({ cells, wanted: 'all' }, quietWatch);
  assert.deepEqual(
    report.results.flatMap(({ error }) => error?.message ?? []),
    [],
  );
  return engine.handles(report.results.at(-1)!);
}

const told = (all: readonly Handle[], cells: readonly string[]): object[] =>
  all.map(({ name, where, axis, ends, locked }) => ({
    name,
    where,
    axis,
    ends: ends.map(({ at, literal }) => [at, literal && cells[literal.cell].slice(literal.from, literal.to)]),
    ...(locked === undefined ? {} : { locked }),
  }));

async function assertHandles(cells: readonly string[], expected: readonly object[]): Promise<void> {
  assert.deepEqual(told(await handles(...cells), cells), expected);
}

describe('the literals that a chart draws', () => {
  it('are the ends of a trim, reached through names in other cells', () =>
    assertHandles(
      [`# The runs, as loaded\n${loaded} | trim 2..18 s`, 'plot runs[1]'],
      [
        {
          name: 'trim',
          where: 'cell 1, The runs, as loaded',
          axis: 'time',
          ends: [
            [2, '2'],
            [18, '18'],
          ],
        },
      ],
    ));

  it('are reached through names at the ends of ranges, each in the cell where it stands', async () => {
    const cells = [
      loaded,
      '# The edges\nlow = 0.01 kHz',
      'high = 20 Hz\nplot (spectrum runs), (band (spectrum runs) low..high)',
    ];
    const [{ where, ends }] = await handles(...cells);
    assert.equal(where, 'cell 3');
    assert.deepEqual(
      ends.map((end) => [end.at, end.literal?.text, end.literal?.unit, end.where]),
      [
        [10, '0.01', 'kHz', 'cell 2, The edges'],
        [20, '20', 'Hz', undefined],
      ],
    );
    const engine = new Engine(host());
    const edit = engine.rewrite(cells, ends[0].literal!, '0.012');
    assert.ok(edit.ok);
    assert.equal(cells[edit.value.cell].slice(edit.value.from, edit.value.to), '0.01');
    const [trim] = await handles(loaded, 'a = 2 s', 'plot (trim runs a..18 s)');
    assert.deepEqual(
      trim.ends.map((end) => end.where ?? trim.where),
      ['cell 2', 'cell 3'],
    );
  });

  it('are each written in its own unit', async () => {
    const [{ ends }] = await handles(loaded, 'plot (trim runs 2000 ms..0.3 min)');
    assert.deepEqual(
      ends.map(({ at, literal }) => [at, literal?.text, literal?.unit, literal?.factor]),
      [
        [2, '2000', 'ms', 0.001],
        [18, '0.3', 'min', 60],
      ],
    );
  });

  it('count a second trim from where the first begins', () =>
    assertHandles(
      [loaded, 'part = runs | trim 2..18 s', 'plot (trim part 1..6 s)'],
      [
        {
          name: 'trim',
          where: 'cell 3',
          axis: 'time',
          ends: [
            [3, '1'],
            [8, '6'],
          ],
        },
      ],
    ));

  it('are start, end and length of a trim that is written by them, where a name may stand for a number', async () => {
    await assertHandles(
      [loaded, '# When it rolls\nbegin = 3 s', 'plot (trim runs from begin length 10 s)'],
      [
        {
          name: 'trim',
          where: 'cell 2, When it rolls',
          axis: 'time',
          ends: [
            [3, '3'],
            [13, '10'],
          ],
        },
      ],
    );
    await assertHandles(
      [loaded, 'plot (trim runs to 15 s length 10 s)'],
      [
        {
          name: 'trim',
          where: 'cell 2',
          axis: 'time',
          ends: [
            [5, '10'],
            [15, '15'],
          ],
        },
      ],
    );
  });

  it('can not be moved where they are computed', async () =>
    assert.deepEqual(await handles(loaded, 'begin = 1 s + 2 s', 'plot (trim runs from begin)'), []));

  it('are one handle where several sets share them, of the sets that do', async () => {
    const found = await handles(loaded, 'part = trim runs 2..18 s', 'plot part[1], part[2], (trim runs 1..9 s)');
    assert.deepEqual(
      found.map(({ sets }) => sets),
      [[0, 1], [2]],
    );
  });

  it('are bands, marks and the shown range of a plot of spectra, and the corners of filters below', () =>
    assertHandles(
      [
        `${loaded} | highpass 2 Hz`,
        'S = spectrum runs\nplot S, (band S 10..50 Hz, 0.05..0.08 kHz) over 1..90 Hz mark 4.4 Hz "wheel"',
      ],
      [
        {
          name: 'shown range',
          where: 'cell 2',
          axis: 'frequency',
          ends: [
            [1, '1'],
            [90, '90'],
          ],
        },
        { name: 'mark “wheel”', where: 'cell 2', axis: 'frequency', ends: [[4.4, '4.4']] },
        { name: 'corner of highpass', where: 'cell 1', axis: 'frequency', ends: [[2, '2']] },
        {
          name: 'band',
          where: 'cell 2',
          axis: 'frequency',
          ends: [
            [10, '10'],
            [50, '50'],
          ],
        },
        {
          name: 'band',
          where: 'cell 2',
          axis: 'frequency',
          ends: [
            [50, '0.05'],
            [80, '0.08'],
          ],
        },
      ],
    ));

  it('are no edges of bands of an octave', async () =>
    assert.deepEqual(await handles(loaded, 'S = spectrum runs\nplot S, (band S third-octave 10..80 Hz)'), []));

  it('are the bands of a comparison', () =>
    assertHandles(
      [loaded, 'compare runs[1] with runs[2] primary 10..50 Hz over 5..10 Hz'],
      [
        {
          name: 'primary band',
          where: 'cell 2',
          axis: 'frequency',
          ends: [
            [10, '10'],
            [50, '50'],
          ],
        },
        {
          name: 'band',
          where: 'cell 2',
          axis: 'frequency',
          ends: [
            [5, '5'],
            [10, '10'],
          ],
        },
      ],
    ));

  it('are locked where a plan settled them, and only there', () =>
    assertHandles(
      [loaded, 'P = plan "Less?" primary 10..50 Hz', 'compare runs[1] with runs[2] plan P over 5..10 Hz, 10..50 Hz'],
      [
        {
          name: 'primary band',
          where: 'cell 2',
          axis: 'frequency',
          ends: [
            [10, '10'],
            [50, '50'],
          ],
          locked: 'settled by the plan P',
        },
        {
          name: 'band',
          where: 'cell 3',
          axis: 'frequency',
          ends: [
            [5, '5'],
            [10, '10'],
          ],
        },
        {
          name: 'band',
          where: 'cell 3',
          axis: 'frequency',
          ends: [
            [10, '10'],
            [50, '50'],
          ],
        },
      ],
    ));

  it('are the frequencies of a profile', () =>
    assertHandles(
      ['P = profile 5 Hz 0.002 g^2/Hz, 20 Hz 0.004 g^2/Hz', 'plot P'],
      [
        { name: 'breakpoint 1', where: 'cell 1', axis: 'frequency', ends: [[5, '5']] },
        { name: 'breakpoint 2', where: 'cell 1', axis: 'frequency', ends: [[20, '20']] },
      ],
    ));

  it('let a trim go as far as the shortest recording', async () => {
    const [{ ends }] = await handles(loaded, 'plot (trim runs 2..18 s)');
    assert.ok(
      ends.every(({ least, most = 0 }) => least === 0 && most > 18 && most < 30),
      JSON.stringify(ends),
    );
  });
});

import { strict as assert } from 'node:assert';
import type { Choice, Made } from '../../../src/charts/making.ts';
import { Engine } from '../../../src/engine/engine.ts';
import { MemoryHost, quietWatch, recording } from '../memoryFiles.ts';

const host = (): MemoryHost =>
  new MemoryHost({ 'raw/a 1.csv': recording({ seed: 1 }), 'raw/a 2.csv': recording({ seed: 2 }) });
const loaded = 'runs = load "raw/*.csv" | channel z';

const over = (
  what: Made,
  axis: 'time' | 'frequency',
  from: number,
  to: number,
  rest: Partial<Choice> = {},
): Choice => ({
  what,
  axis,
  from,
  to,
  set: 0,
  grain: 0.04,
  ...rest,
});

/** What is written for a stretch of the last statement's charts: the cells afterwards, or the refusal. */
async function made(choice: Choice, ...cells: readonly string[]): Promise<readonly string[] | string> {
  const engine = new Engine(host());
  const report = await engine.run({ cells, wanted: 'all' }, quietWatch);
  assert.deepEqual(
    report.results.flatMap(({ error }) => error?.message ?? []),
    [],
  );
  const { statement } = engine.makings(report.results.at(-1)!);
  const found = await engine.make(cells, statement!, choice, quietWatch);
  if (!found.ok) return found.failure.message;
  const texts = [...cells];
  for (const { cell, from, to, text } of [...found.value.edits].sort((a, b) => b.from - a.from))
    texts[cell] = `${texts[cell].slice(0, from)}${text}${texts[cell].slice(to)}`;
  const { below } = found.value;
  if (below !== undefined) texts.splice(below.cell + 1, 0, below.text);
  const again = await engine.run({ cells: texts, wanted: 'all' }, quietWatch);
  assert.deepEqual(
    again.results.flatMap(({ error }) => error?.message ?? []),
    [],
  );
  return texts;
}

describe('a stretch that is chosen in a chart', () => {
  it('is trimmed to by the numbers of the trim, in the cell and the units in which they stand', async () => {
    assert.deepEqual(await made(over('trim', 'time', 3.017, 12.98), `${loaded} | trim 2..18 s`, 'plot runs'), [
      `${loaded} | trim 3..13 s`,
      'plot runs',
    ]);
    assert.deepEqual(await made(over('trim', 'time', 3.017, 12), loaded, 'plot (trim runs 2000 ms..0.3 min)'), [
      loaded,
      'plot (trim runs 3000 ms..0.2 min)',
    ]);
  });

  it('is trimmed to by a length that counts from where the trim begins, or back from where it ends', async () => {
    assert.deepEqual(await made(over('trim', 'time', 4, 9), loaded, 'plot (trim runs from 2 s length 10 s)'), [
      loaded,
      'plot (trim runs from 4 s length 5 s)',
    ]);
    assert.deepEqual(await made(over('trim', 'time', 4, 9), loaded, 'plot (trim runs to 15 s length 10 s)'), [
      loaded,
      'plot (trim runs to 9 s length 5 s)',
    ]);
  });

  it('is trimmed to by a new step where the runs are bound, or in the brackets where they stand', async () => {
    assert.deepEqual(await made(over('trim', 'time', 3, 12), `${loaded} # as recorded`, 'plot runs[1]'), [
      `${loaded} | trim 3..12 s # as recorded`,
      'plot runs[1]',
    ]);
    assert.deepEqual(await made(over('trim', 'time', 3, 12), 'plot (load "raw/*.csv" | channel z)'), [
      'plot (load "raw/*.csv" | channel z | trim 3..12 s)',
    ]);
  });

  it('is trimmed to no farther than the recording goes', async () => {
    const [first] = (await made(over('trim', 'time', -5, 500), loaded, 'plot runs')) as readonly string[];
    assert.match(first, /trim 0\.\.[\d.]+ s$/);
  });

  it('of several sets trims the set on whose panel it lies', async () =>
    assert.deepEqual(
      await made(
        over('trim', 'time', 3, 12, { set: 1 }),
        `a = ${loaded.slice(7)} | trim 2..18 s`,
        `b = ${loaded.slice(7)} | trim 1..9 s`,
        'plot a, b',
      ),
      [`a = ${loaded.slice(7)} | trim 2..18 s`, `b = ${loaded.slice(7)} | trim 3..12 s`, 'plot a, b'],
    ));

  it('becomes a band beside those of a plot or a comparison', async () => {
    const [spectrum, band] = ['S = spectrum runs', over('band', 'frequency', 29.98, 40.01)];
    assert.deepEqual(await made(band, loaded, spectrum, 'plot S, (band S 10..20 Hz, 20..25 Hz) over 1..90 Hz'), [
      loaded,
      spectrum,
      'plot S, (band S 10..20 Hz, 20..25 Hz, 30..40 Hz) over 1..90 Hz',
    ]);
    assert.deepEqual(await made(band, loaded, 'compare runs[1] with runs[2] over 10..20 Hz paired'), [
      loaded,
      'compare runs[1] with runs[2] over 10..20 Hz, 30..40 Hz paired',
    ]);
    assert.deepEqual(await made(band, loaded, 'C = compare runs[1] with runs[2]', 'plot C'), [
      loaded,
      'C = compare runs[1] with runs[2] over 30..40 Hz',
      'plot C',
    ]);
  });

  it('becomes the first band of the spectra that a plot shows', async () => {
    const band = over('band', 'frequency', 30, 40);
    assert.deepEqual(await made(band, loaded, 'S = spectrum runs', 'plot S, (spectrum runs[1]) scale log'), [
      loaded,
      'S = spectrum runs',
      'plot S, (spectrum runs[1]), (band S 30..40 Hz) scale log',
    ]);
    assert.deepEqual(await made(band, loaded, 'plot (spectrum runs) scale log'), [
      loaded,
      'plot (spectrum runs), (band (spectrum runs) 30..40 Hz) scale log',
    ]);
  });

  it('becomes a new cell below what is shown without a plot', async () => {
    const cells = [loaded, 'S = spectrum runs', 'levels runs'];
    const below = async (choice: Choice): Promise<string> => (await made(choice, ...cells.slice(0, 2)))[2];
    assert.equal(await below(over('band', 'frequency', 30, 40)), 'band S 30..40 Hz');
    assert.equal(await below(over('range', 'frequency', 30, 40)), 'plot S over 30..40 Hz');
    assert.equal(await below(over('mark', 'frequency', 30, 40)), 'plot S mark 40 Hz');
    assert.equal(
      (await made(over('band', 'frequency', 30, 40), loaded, 'spectrum runs'))[2],
      'band (spectrum runs) 30..40 Hz',
    );
  });

  it('is kept as what a plot is over, and marked where it ends', async () => {
    const plot = 'plot (spectrum runs)';
    assert.deepEqual(await made(over('range', 'frequency', 2, 40), loaded, `${plot} over 0.001..0.09 kHz scale log`), [
      loaded,
      `${plot} over 0.002..0.04 kHz scale log`,
    ]);
    assert.deepEqual(await made(over('range', 'time', 2, 9), loaded, 'plot runs'), [loaded, 'plot runs over 2..9 s']);
    assert.deepEqual(await made(over('mark', 'time', 2, 9.33), loaded, 'plot runs mark 3 s "kerb"'), [
      loaded,
      'plot runs mark 3 s "kerb" mark 9.35 s',
    ]);
  });

  it('changes nothing that a plan settled, and says so', async () =>
    assert.equal(
      await made(
        over('band', 'frequency', 30, 40),
        loaded,
        'P = plan "Less?" primary 10..50 Hz',
        'compare runs[1] with runs[2] plan P',
      ),
      'Nothing was written: the bands are settled by the plan P.',
    ));

  it('is refused in words where it is too short, or its statement is gone', async () => {
    assert.match((await made(over('band', 'frequency', 30, 30.01), loaded, 'spectrum runs')) as string, /zoom in/);
    assert.match((await made(over('trim', 'time', 400, 500), loaded, 'plot runs')) as string, /too little/);
    const engine = new Engine(host());
    const found = await engine.make(
      [loaded, 'levels runs'],
      { cell: 1, line: 1, text: 'plot runs' },
      over('trim', 'time', 2, 9),
      quietWatch,
    );
    assert.ok(!found.ok && found.failure.code === 'making.gone');
  });
});

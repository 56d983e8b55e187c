import { present } from '../../../src/charts/present.ts';
import { strict as assert } from 'node:assert';
import { sampleCount } from '../../../src/values/run.ts';
import { Engine } from '../../../src/engine/engine.ts';
import { MemoryHost, quietWatch } from '../../engine/memoryFiles.ts';
import { errorOf, recordingOf, resultOf, sine, valueOf, warningsOf } from '../notebook.ts';

const header = 'file,condition,surface,order,speed (m/s),excluded,why\n';
const rows = [
  'foam-1.csv,foam,brick,1,1.20,no,',
  'gel-1.csv,gel,brick,2,1.21,no,',
  'gel-2.csv,gel,brick,3,,yes,broken off',
  'foam-2.csv,foam,tile,4,1.18,,',
];
const short = recordingOf({ z: sine(5) }, { seconds: 4 });
const long = recordingOf({ z: sine(5) });
const files: Record<string, string> = {
  'raw/runs.csv': header + rows.join('\n') + '\n',
  'raw/foam-1.csv': long,
  'raw/foam-2.csv': long,
  'raw/gel-1.csv': long,
  'raw/gel-2.csv': short,
};
const load = 'load sheet "raw/runs.csv" unit g';

describe('a run sheet in a notebook', () => {
  it('is shown by its verb, its recordings named from the notebook’s folder', async () => {
    const value = await valueOf('sheet', 'sheet "raw/runs.csv"', files);
    assert.deepEqual(value.columns, header.trim().split(','));
    assert.deepEqual(
      value.rows.map(({ file }) => file),
      ['raw/foam-1.csv', 'raw/gel-1.csv', 'raw/gel-2.csv', 'raw/foam-2.csv'],
    );
    assert.deepEqual(
      value.rows.map(({ order, excluded, why }) => [order, excluded, why]),
      [
        [1, false, undefined],
        [2, false, undefined],
        [3, true, 'broken off'],
        [4, false, undefined],
      ],
    );
  });

  it('is no recording where a pattern stands for it, too', async () => {
    const { value, warnings } = await resultOf('load "raw/*.csv" sheet "raw/runs.csv" unit g', files);
    assert.ok(value?.kind === 'runs', 'it is read');
    assert.deepEqual(
      value.runs.map(({ label }) => label),
      ['foam-1', 'foam-2', 'gel-1'],
    );
    assert.ok(!warnings.some(({ code }) => code === 'sheet.unlisted'));
    assert.match((await errorOf('load "raw/*.csv" unit g', files)).message, /raw\/runs\.csv/);
  });

  it('lists the recordings that load reads, with what it says of each', async () => {
    const { runs, excluded } = await valueOf('runs', load, files);
    assert.deepEqual(
      runs.map(({ label }) => label),
      ['foam-1', 'gel-1', 'foam-2'],
    );
    assert.deepEqual(
      runs.map(({ sheet }) => [sheet?.condition, sheet?.order]),
      [
        ['foam', 1],
        ['gel', 2],
        ['foam', 4],
      ],
    );
    assert.equal(runs[1].sheet?.facts['speed (m/s)'], '1.21');
    assert.deepEqual(
      excluded?.map(({ label, why, run }) => [label, why, run?.label]),
      [['gel-2', 'broken off', 'gel-2']],
    );
  });

  it('is narrowed by where to the rows that have every value', async () => {
    const of = async (where: string): Promise<string[]> =>
      (await valueOf('runs', `${load} where ${where}`, files)).runs.map(({ label }) => label);
    assert.deepEqual(await of('condition foam'), ['foam-1', 'foam-2']);
    assert.deepEqual(await of('condition foam, surface Tile'), ['foam-2']);
    assert.deepEqual(await of('condition "foam" surface brick'), ['foam-1']);
    assert.deepEqual(await of('speed "1.21"'), ['gel-1']);
  });

  it('tells of files that are named, and says which it does not know', async () => {
    const more = { ...files, 'raw/new.csv': long };
    const { value, warnings } = await resultOf(
      'load "raw/foam-*.csv", "raw/new.csv" sheet "raw/runs.csv" unit g',
      more,
    );
    assert.ok(value?.kind === 'runs');
    assert.deepEqual(
      value.runs.map(({ label, sheet }) => [label, sheet?.order]),
      [
        ['foam-1', 1],
        ['foam-2', 4],
        ['new', undefined],
      ],
    );
    assert.match(warnings.map(({ message }) => message).join(), /raw\/new.csv does not stand in raw\/runs.csv/);
  });

  it('leaves excluded runs out, lists them with every result, and takes them in when told to', async () => {
    for (const step of ['', '\nlevels r', '\nspectrum r', '\nband (spectrum r) 2..20 Hz']) {
      const { value } = await resultOf(`r = ${load} where condition gel${step}`, files);
      assert.ok(value !== undefined && 'excluded' in value, step);
      assert.deepEqual(
        value.excluded?.map(({ label, why }) => `${label} (${why})`),
        ['gel-2 (broken off)'],
        step,
      );
      assert.match(present(value, undefined, []).text, /gel-2 \(broken off\)/, step);
    }
    const { runs, excluded } = await valueOf('runs', `${load} where condition gel including excluded`, files);
    assert.deepEqual(
      runs.map(({ label }) => label),
      ['gel-1', 'gel-2'],
    );
    assert.equal(excluded, undefined);
  });

  it('sends excluded runs through the same steps, and keeps why one could not go', async () => {
    const steps = ` where condition gel | channel z | trim 1..3 s`;
    const [went] = (await valueOf('runs', load + steps, files)).excluded ?? [];
    assert.equal(went.run && sampleCount(went.run), 400);
    const { excluded, runs } = await valueOf('runs', `${load} where condition gel | trim 1..10 s | channel z`, files);
    assert.equal(runs.length, 1);
    assert.equal(excluded?.[0].run, undefined);
    assert.match(excluded?.[0].obstacle ?? '', /gel-2 runs from 0 to 4 s, and 1 s to 10 s reaches outside it\.$/);
  });

  it('may exclude a run whose recording is gone', async () => {
    const { 'raw/gel-2.csv': _gone, ...rest } = files;
    const { excluded } = await valueOf('runs', load, rest);
    assert.deepEqual(
      excluded?.map(({ label, obstacle }) => [label, obstacle]),
      [['gel-2', 'The recording of gel-2, raw/gel-2.csv, is not there.']],
    );
  });

  it('decides with its contents what is run again', async () => {
    const host = new MemoryHost({ ...files });
    const engine = new Engine(host);
    const run = async (): Promise<boolean | undefined> =>
      (await engine.run({ cells: [load], wanted: 'all' }, quietWatch)).results[0].cached;
    assert.equal(await run(), false);
    assert.equal(await run(), true);
    host.contents.set('raw/runs.csv', files['raw/runs.csv'].replace('1.21', '1.22'));
    assert.equal(await run(), false);
    host.contents.set('raw/gel-1.csv', short);
    assert.equal(await run(), false);
  });

  it('names every file that was read among the sources', async () => {
    const report = await new Engine(new MemoryHost({ ...files })).run({ cells: [load], wanted: 'all' }, quietWatch);
    assert.deepEqual(
      report.sources.map(({ path }) => path),
      Object.keys(files).sort(),
    );
  });

  it('says in which line a run has no recording yet', async () => {
    const more = { ...files, 'raw/runs.csv': files['raw/runs.csv'] + ',gel,brick,5,,,\n' };
    assert.ok((await warningsOf(load, more)).includes('sheet.unmade'));
  });

  it('is refused in one sentence that names the line', async () => {
    const message = async (text: string, cell = load): Promise<string> =>
      (await errorOf(cell, { ...files, 'raw/runs.csv': text })).message;
    assert.match(await message('condition\nfoam\n'), /no column "file": it has condition/);
    assert.match(
      await message('file,excluded\nfoam-1.csv,perhaps\n'),
      /runs.csv:2: "perhaps" under excluded is neither/,
    );
    assert.match(await message('file,order\nfoam-1.csv,first\n'), /runs.csv:2: "first" under order is no number/);
    assert.match(await message('file\nfoam-1.csv\nfoam-1.csv\n'), /runs.csv:3: foam-1.csv stands in line 2 already/);
    assert.match(await message('file\nnone.csv\n'), /runs.csv:2: There is no file "raw\/none.csv"/);
    assert.match(await message('file\n'), /a header and no runs/);
    assert.match(await message('file,excluded\nfoam-1.csv,yes\n'), /all of them are excluded/);
    const all = files['raw/runs.csv'];
    assert.match(await message(all, `${load} where condition gal`), /has condition "gal": there is foam, gel/);
    assert.match(await message(all, `${load} where conditon gel`), /no column conditon: did you mean condition/);
    assert.match(await message(all, `${load} where condition`), /pairs of a column and a value/);
    assert.match(await message(all, 'load "raw/foam-1.csv" where condition gel'), /name one, as in sheet/);
    assert.match(await message(all, 'load unit g'), /load needs files/);
    assert.match(await message(all, 'sheet "raw/*.csv"'), /a run sheet is one/);
  });

  it('warns of a run that is excluded without a reason', async () => {
    const text = files['raw/runs.csv'].replace('broken off', '');
    assert.ok((await warningsOf('sheet "raw/runs.csv"', { ...files, 'raw/runs.csv': text })).includes('sheet.why'));
  });
});

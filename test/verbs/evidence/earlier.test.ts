import { strict as assert } from 'node:assert';
import { Engine } from '../../../src/engine/engine.ts';
import { pickOf } from '../../../src/values/pick.ts';
import { tabulate } from '../../../src/values/tabulate.ts';
import { toJson } from '../../../src/values/json.ts';
import { standardUncertainty } from '../../../src/units/uncertainty.ts';
import { MemoryHost, quietWatch } from '../../engine/memoryFiles.ts';
import { changeIn, exampleRecords, recordOf } from '../exampleRecords.ts';
import { errorOf, near, valueOf } from '../notebook.ts';

const files = { ...exampleRecords };
const ride = 'earlier "spring/ride.record.json"';

describe('earlier', () => {
  it('reads the changes of a record, and no other figures beside them', async () => {
    const found = await valueOf('earlier', ride, files);
    assert.deepEqual(
      found.studies.map(({ name, path }) => [name, path]),
      [['spring', 'spring/ride.record.json']],
    );
    assert.equal(found.rows.length, 1);
    const { change } = found.rows[0];
    assert.equal(change?.changePercent, -12);
    assert.deepEqual(change?.band, { from: 10, to: 50 });
    assert.equal(change?.outcome, 'lower');
    assert.equal(change?.unit.symbol, 'g');
  });

  it('has fields, with the recorded standard error', async () => {
    const change = await valueOf('quantity', `E = ${ride}\nE.change`, files);
    assert.equal(change.quantity.value, -12);
    near(standardUncertainty(change.parts!), 88 * 0.02, 1e-9);
    const picked = await valueOf('quantity', `E = earlier "spring/two-bands.record.json"\nE[2].low`, files);
    assert.equal(picked.quantity.unit.symbol, '%');
  });

  it('is picked, tabulated and told in JSON row by row', async () => {
    const found = await valueOf('earlier', 'earlier "spring/two-bands.record.json"', files);
    const second = pickOf(found, 2);
    assert.ok(second.ok && second.value.kind === 'earlier');
    assert.equal(second.value.rows[0].change?.band.from, 4);
    const table = tabulate(found)!;
    assert.equal(table.rows.length, 2);
    assert.ok(table.columns.some(({ name, unit }) => name === 'change' && unit === '%'));
    const json = toJson(found) as { rows: { change_percent: number; standard_error: number }[] };
    assert.equal(json.rows[1].change_percent, -12);
    assert.equal(json.rows[1].standard_error, 0.02);
  });

  it('takes other figures by their names, in the order in which they are asked for, with what unit is known', async () => {
    const found = await valueOf('earlier', `${ride} of "L.rows[foam-1 z].rms", "C.confidence"`, files);
    assert.deepEqual(
      found.rows.map(({ name, figure }) => [name, figure?.value, figure?.unit.symbol]),
      [
        ['L.rows[foam-1 z].rms', 0.31, 'g'],
        ['C.confidence', 0.95, ''],
      ],
    );
    const inMetres = await valueOf('earlier', `E = ${ride} of L\nE in m/s^2`, files);
    near(inMetres.rows.at(-1)!.figure!.value as number, 0.31 * 9.80665, 1e-9);
  });

  it('gives all figures of a record that compares nothing', async () => {
    const record = { 'x.record.json': recordOf({ 'n.verdict': 'supported', 'n.runs': 4 }) };
    const found = await valueOf('earlier', 'earlier "x.record.json"', record);
    assert.deepEqual(
      found.rows.map(({ name, figure }) => [name, figure?.value]),
      [
        ['n.verdict', 'supported'],
        ['n.runs', 4],
      ],
    );
    assert.equal((await errorOf('E = earlier "x.record.json"\nE[1].value', record)).code, 'field.absent');
  });

  it('calls two studies of one name by their files', async () => {
    const found = await valueOf('earlier', 'earlier "spring/ride.record.json", "spring/rubber.record.json"', files);
    assert.deepEqual(
      found.studies.map(({ name }) => name),
      ['spring', 'spring/rubber.record.json'],
    );
  });

  it('tells a band that is no number, a missing figure and a limit on the wrong side from a sound row', async () => {
    const sound = changeIn('C');
    const row = 'C.rows[10..50 Hz]';
    for (const [key, value] of [
      ['a', 'much'],
      ['change_percent', undefined],
      ['low_percent', -3],
      ['outcome', 'better'],
      ['change_db', 1],
    ] as const) {
      const record = { 'x.record.json': recordOf({ ...sound, [`${row}.${key}`]: value }) };
      const { code, message } = await errorOf('earlier "x.record.json"', record);
      assert.equal(code, 'earlier.row', key);
      assert.match(message, /x\.record\.json is damaged at C\.rows\[10\.\.50 Hz\]/);
    }
  });

  it('refuses what is no record with what is wrong with it', async () => {
    const codeOf = async (text: string): Promise<string> =>
      (await errorOf('earlier "x.record.json"', { 'x.record.json': text })).code;
    for (const text of ['', '{', '[]', '3', '{"record":1}', '{"record":1,"sources":[],"results":{}}'])
      assert.equal(await codeOf(text), text === '[]' || text === '3' ? await codeOf(text) : 'earlier.record', text);
    for (const text of ['[]', '3']) assert.match(await codeOf(text), /^earlier\.(record|version)$/);
    assert.equal(await codeOf('{"record":7,"sources":[],"results":{}}'), 'earlier.version');
    assert.equal((await errorOf('earlier "none.record.json"', files)).code, 'file.missing');
  });

  it('names the record among the raw files of a run, and is another once that changes', async () => {
    const host = new MemoryHost(files);
    const engine = new Engine(host);
    const run = async (): Promise<readonly string[]> => {
      const report = await engine.run({ cells: [`E = ${ride}\nE.change`], wanted: 'all' }, quietWatch);
      const value = report.results.at(-1)?.value;
      assert.ok(value?.kind === 'quantity');
      return [String(value.quantity.value), ...report.sources.map(({ path }) => path)];
    };
    assert.deepEqual(await run(), ['-12', 'spring/ride.record.json']);
    host.contents.set('spring/ride.record.json', recordOf(changeIn('C', { change: -20 })));
    assert.deepEqual(await run(), ['-20', 'spring/ride.record.json']);
  });
});

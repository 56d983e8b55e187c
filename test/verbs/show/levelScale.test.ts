import { strict as assert } from 'node:assert';
import { present } from '../../../src/charts/present.ts';
import { toJson } from '../../../src/values/json.ts';
import { errorOf, near, resultOf, valueOf } from '../notebook.ts';
import { loadPads, pads, worked } from '../pads.ts';

const study = pads(worked);

async function shown(text: string): Promise<string> {
  const { value, error } = await resultOf(loadPads + text, study);
  assert.equal(error?.message, undefined);
  return present(value!, undefined, []).text;
}

describe('scale dB', () => {
  it('tells the sizes of a table as levels, and leaves means, factors and doses as they are', async () => {
    const table = await valueOf('table', `${loadPads}table (levels foam) scale dB re 1 g`, study);
    const own = await valueOf('table', `${loadPads}table (levels foam)`, study);
    const at = (name: string): number => table.columns.findIndex((column) => column.name === name);
    assert.equal(table.columns[at('rms')].unit, 'dB re 1 g');
    near(table.rows[0][at('rms')] as number, 20 * Math.log10(own.rows[0][at('rms')] as number), 1e-12);
    for (const name of ['mean', 'crest_factor', 'vdv']) {
      assert.equal(table.columns[at(name)].unit, own.columns[at(name)].unit);
      assert.deepEqual(table.rows[0][at(name)], own.rows[0][at(name)]);
    }
  });

  it('is over the reference values of ISO 1683 unless another is named', async () => {
    const [plain, named] = await Promise.all(
      ['', ' re iso1683'].map((re) => valueOf('table', `${loadPads}table (levels foam) scale dB${re}`, study)),
    );
    assert.deepEqual(plain, named);
    assert.ok(plain.columns.some(({ unit }) => unit === 'dB re 1e-6 m/s^2'));
  });

  it('tells the levels of a comparison’s sides in dB, in its table, chart and JSON, and no change otherwise', async () => {
    const text = `${loadPads}compare foam with gel over 10..30 Hz`;
    const [own, value] = await Promise.all([
      valueOf('comparison', text, study),
      valueOf('comparison', `${text} scale dB re 1 m/s^2`, study),
    ]);
    assert.deepEqual({ ...value, level: undefined }, { ...own, level: undefined });
    const json = toJson(value) as { level_reference: string; rows: { a: number; a_level_db: number }[] };
    assert.equal(json.level_reference, 'dB re 1 m/s^2');
    near(json.rows[0].a_level_db, 20 * Math.log10(json.rows[0].a * 9.80665), 1e-9);
    assert.ok(!JSON.stringify(toJson(own)).includes('level_db'));
    assert.match(await shown(`compare foam with gel over 10..30 Hz scale dB re 1 m/s^2`), /A: foam \(dB re 1 m\/s²\)/);
    const table = await valueOf('table', `${text} scale dB re 1 m/s^2 | table`, study);
    assert.equal(table.columns.find(({ name }) => name === 'foam')?.unit, 'dB re 1 m/s^2');
  });

  it('says the levels of charts in dB', async () => {
    const rms = Math.exp(worked.a.reduce((sum, level) => sum + Math.log(level), 0) / worked.a.length);
    const level = (20 * Math.log10(rms)).toFixed(1).replace('-', '−');
    const bands = await shown('plot (band (spectrum foam) 10..30 Hz) scale dB re 1 g');
    assert.ok(bands.includes(`in dB re 1 g by band. foam: 10–30 Hz ${level} (runs`), bands);
    assert.match(
      await shown('plot (spectrum foam) scale log dB'),
      /level in dB, frequency on a log axis.*dB re \(1e-6 m\/s²\)²\/Hz/,
    );
    assert.match(await shown('plot (levels foam) scale dB re 1 g'), /foam: −1\d\.\d dB re 1 g/);
    assert.match(await shown('plot (running foam over 1 s) scale dB re 1 g'), /largest −\d+\.\d dB re 1 g/);
    assert.match(await shown('plot (peaks (spectrum foam) 5..80 Hz) scale dB'), /dB re \(1e-6 m\/s²\)²\/Hz/);
  });

  it('refuses a reference without the scale, and one that nothing is measured in', async () => {
    assert.equal((await errorOf(`${loadPads}table (levels foam) re 1 g`, study)).code, 'scale.words');
    assert.equal((await errorOf(`${loadPads}plot foam scale dB`, study)).code, 'scale.reference');
    assert.match(
      (await errorOf(`${loadPads}compare foam with gel scale dB re 1 mm/s`, study)).message,
      /level in dB over 1 mm\/s/,
    );
  });
});

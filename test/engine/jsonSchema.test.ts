import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { diskHost } from '../../src/disk/host.ts';
import { Engine } from '../../src/engine/engine.ts';
import { reportJson } from '../../src/engine/json.ts';
import { runSchema } from '../../src/engine/jsonSchema.ts';
import { toJson } from '../../src/values/json.ts';
import { kindNames } from '../../src/values/kinds.ts';
import { everyValue } from '../charts/everyValue.ts';

const text = readFileSync(new URL('../../media/run.schema.json', import.meta.url), 'utf8');
const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, keywords: ['x-unit'] });
const holds = ajv.compile(JSON.parse(text) as object);

/** A whole document around one statement. */
const around = (statement: object): object => ({
  notebook: 'a.washboard.md',
  ok: true,
  sources: [],
  cells: [{ index: 0, line: 1, statements: [{ line: 1, name: null, warnings: [], error: null, ...statement }] }],
  prose: [],
});

describe('the schema of `run --json`', () => {
  it('is current: `npm run schema` writes what stands in media/run.schema.json', () => {
    assert.equal(text, `${JSON.stringify(runSchema(), null, 2)}\n`);
  });

  it('holds for a value of every kind as JSON gives it', () => {
    for (const kind of kindNames) {
      const document = around({ kind, value: JSON.parse(JSON.stringify(toJson(everyValue[kind]))) as object });
      assert.ok(holds(document), `${kind}: ${ajv.errorsText(holds.errors)}`);
      assert.ok(holds(around({ kind, value: null, shows: 'A' })));
    }
  });

  it('refuses a key that no kind has, a figure that is a word, one that is left out, and the value of another kind', () => {
    const levels = JSON.parse(JSON.stringify(toJson(everyValue.levels))) as { rows: Record<string, unknown>[] };
    const withRow = (change: object): object => ({ ...levels, rows: [{ ...levels.rows[0], ...change }] });
    assert.ok(holds(around({ kind: 'levels', value: withRow({}) })));
    for (const value of [withRow({ loudness: 1 }), withRow({ rms: 'much' }), withRow({ rms: undefined })])
      assert.ok(!holds(JSON.parse(JSON.stringify(around({ kind: 'levels', value })))));
    assert.ok(!holds(around({ kind: 'bands', value: levels })));
  });

  for (const notebook of ['seat-pad.washboard.md', 'springs.washboard.md', 'three-pads.washboard.md'])
    it(`holds for all that ${notebook} gives`, async () => {
      const folder = fileURLToPath(new URL('../../samples/', import.meta.url));
      const cells = [...readFileSync(folder + notebook, 'utf8').matchAll(/^```washboard\n(.*?)^```$/gms)];
      const watch = { cancelled: () => false, progress: () => undefined };
      const engine = new Engine(diskHost(folder, folder));
      const report = await engine.run({ cells: cells.map(([, cell]) => cell), wanted: 'all' }, watch);
      const json = reportJson(
        basename(notebook),
        cells.map(() => ({ line: 1 })),
        report,
      );
      assert.ok(holds(JSON.parse(JSON.stringify(json))), ajv.errorsText(holds.errors?.slice(0, 5)));
    });
});

import { strict as assert } from 'node:assert';
import { fileURLToPath } from 'node:url';
import { diskHost } from '../../src/disk/host.ts';
import { Engine } from '../../src/engine/engine.ts';
import { functions } from '../../src/verbs/functions.ts';
import { verbs } from '../../src/verbs/catalogue.ts';
import { quietWatch } from '../engine/memoryFiles.ts';

const samples = fileURLToPath(new URL('../../samples', import.meta.url));

describe('the examples in the verbs’ help', () => {
  // One engine, so that the recordings are read once.
  const engine = new Engine(diskHost(samples, samples));

  for (const { form } of verbs) {
    it(`of ${form.verb} run`, async () => {
      assert.ok(form.examples.length > 0);
      for (const example of form.examples) {
        const report = await engine.run({ cells: [example], wanted: 'all' }, quietWatch);
        assert.deepEqual(
          report.results.flatMap(({ error }) => error?.message ?? []),
          [],
          example,
        );
        assert.ok(example.includes(form.verb));
        if (form.gives !== 'same') assert.equal(report.results.at(-1)?.value?.kind, form.gives, example);
      }
    });
  }

  for (const { form } of functions) {
    it(`of ${form.name} run`, async () => {
      const report = await engine.run({ cells: [form.example], wanted: 'all' }, quietWatch);
      assert.deepEqual(
        report.results.flatMap(({ error }) => error?.message ?? []),
        [],
      );
      assert.equal(report.results[0].value?.kind, 'quantity');
    });
  }
});

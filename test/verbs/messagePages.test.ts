import { strict as assert } from 'node:assert';
import { Engine } from '../../src/engine/engine.ts';
import { callPages } from '../../src/verbs/messagePages/calls.ts';
import { recordingPages } from '../../src/verbs/messagePages/recordings.ts';
import { quietWatch } from '../engine/memoryFiles.ts';
import { exampleHost } from './exampleHost.ts';

describe('the page of a message of running', () => {
  // One engine, so that the recordings are read once.
  const engine = new Engine(exampleHost());

  async function told(cell: string): Promise<{ readonly errors: string[]; readonly warnings: string[] }> {
    const { results } = await engine.run({ cells: [cell], wanted: 'all' }, quietWatch);
    return {
      errors: results.flatMap(({ error }) => error?.code ?? []),
      warnings: results.flatMap(({ warnings }) => warnings.map(({ code }) => code)),
    };
  }

  for (const [code, { title, why, wrong, right }] of Object.entries({ ...recordingPages, ...callPages })) {
    it(`${code} has a wrong example that gives it, and a right one that gives nothing`, async () => {
      const found = await told(wrong);
      assert.ok([...found.errors, ...found.warnings].includes(code), `${wrong}: ${JSON.stringify(found)}`);
      const { errors, warnings } = await told(right);
      assert.deepEqual(errors, [], right);
      assert.ok(!warnings.includes(code), right);
      assert.match(title, /^[^.]+$/);
      assert.match(why, /^.*\.$/s);
    });
  }
});

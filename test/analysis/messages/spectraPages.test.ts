import { strict as assert } from 'node:assert';
import { spectraPages } from '../../../src/analysis/messages/spectraPages.ts';
import { Engine } from '../../../src/engine/engine.ts';
import type { Message } from '../../../src/result/result.ts';
import type { Host } from '../../../src/engine/host.ts';
import { quietWatch } from '../../engine/memoryFiles.ts';
import { exampleHost } from '../../verbs/exampleHost.ts';
import { noise, recordingOf } from '../../verbs/notebook.ts';

/** Those of the examples, and a made-up recording of two channels of which one comes half a second late. */
function filesOfPages(): Host {
  const gauss = noise(3);
  const drive = Array.from({ length: 6100 }, gauss);
  const late = recordingOf({ 'base (g)': (_, i) => drive[i + 100], 'seat (g)': (_, i) => drive[i] }, { seconds: 30 });
  return exampleHost({ 'raw/late.csv': late });
}

describe('the page of a message about spectra', () => {
  // One engine, so that the recordings are read once.
  const engine = new Engine(filesOfPages());

  async function saidOf(cell: string): Promise<readonly Message[]> {
    const { results } = await engine.run({ cells: [cell], wanted: 'all' }, quietWatch);
    return results.flatMap(({ error, warnings }) => [...(error === undefined ? [] : [error]), ...warnings]);
  }

  for (const [code, { title, why, wrong, right }] of Object.entries(spectraPages)) {
    it(`${code} has a wrong example that gives it, and a right one that does not`, async () => {
      const found = (await saidOf(wrong)).find((one) => one.code === code);
      assert.ok(found, `${wrong}: ${JSON.stringify(await saidOf(wrong))}`);
      assert.match(found.message, /^[A-Za-z0-9].*\.$/s);
      assert.ok(!/undefined|\[object|NaN/.test(found.message), found.message);
      const after = await saidOf(right);
      assert.ok(!after.some((one) => one.code === code), `${right}: ${JSON.stringify(after)}`);
      assert.match(title, /^[A-Z].*[^.]$/);
      assert.match(why, /^[A-Z].*[.)]$/);
    });
  }
});

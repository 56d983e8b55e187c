import { strict as assert } from 'node:assert';
import { fileURLToPath } from 'node:url';
import { spectraPages } from '../../../src/analysis/messages/spectraPages.ts';
import { diskHost } from '../../../src/disk/host.ts';
import { Engine } from '../../../src/engine/engine.ts';
import type { Message } from '../../../src/result/result.ts';
import type { Host } from '../../../src/engine/host.ts';
import { MemoryHost, quietWatch } from '../../engine/memoryFiles.ts';
import { noise, recordingOf } from '../../verbs/notebook.ts';

const samples = fileURLToPath(new URL('../../../samples', import.meta.url));

/** The samples, and a made-up recording of two channels of which one comes half a second late. */
function filesOfPages(): Host {
  const gauss = noise(3);
  const drive = Array.from({ length: 6100 }, gauss);
  const late = recordingOf({ 'base (g)': (_, i) => drive[i + 100], 'seat (g)': (_, i) => drive[i] }, { seconds: 30 });
  const disk = diskHost(samples, samples);
  const made = new MemoryHost({ 'raw/late.csv': late });
  const of = (path: string): Host['files'] => (made.contents.has(path) ? made.files : disk.files);
  return {
    digest: disk.digest,
    files: {
      expand: (pattern) => of(pattern).expand(pattern),
      identify: (path) => of(path).identify(path),
      open: (path) => of(path).open(path),
    },
  };
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

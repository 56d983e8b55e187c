import { strict as assert } from 'node:assert';
import { fileURLToPath } from 'node:url';
import { diskHost } from '../../../src/disk/host.ts';
import { Engine } from '../../../src/engine/engine.ts';
import type { Host } from '../../../src/engine/host.ts';
import type { MessagePage } from '../../../src/result/pages.ts';
import type { Message } from '../../../src/result/result.ts';
import { MemoryHost, quietWatch } from '../../engine/memoryFiles.ts';

const samples = fileURLToPath(new URL('../../../samples', import.meta.url));

/** The sample's files with some in memory beside them. */
function hostWith(texts: Readonly<Record<string, string>>): Host {
  const disk = diskHost(samples, samples);
  const memory = new MemoryHost({ ...texts });
  const holds = (path: string): boolean => path in texts;
  return {
    ...disk,
    digest: memory.digest,
    files: {
      expand: async (pattern) => {
        const found = await memory.files.expand(pattern);
        return found.ok ? found : disk.files.expand(pattern);
      },
      identify: (path) => (holds(path) ? memory : disk).files.identify(path),
      open: (path) => (holds(path) ? memory : disk).files.open(path),
    },
  };
}

/** Holds each page's cells against its code: the wrong one gives it, in one sentence, and the right one does not. */
export function describePages(
  about: string,
  pages: Readonly<Record<string, MessagePage>>,
  texts: Readonly<Record<string, string>> = {},
): void {
  describe(`the page of a message about ${about}`, () => {
    // One engine, so that the recordings are read once.
    const engine = new Engine(hostWith(texts));

    async function saidOf(cell: string): Promise<readonly Message[]> {
      const { results } = await engine.run({ cells: [cell], wanted: 'all' }, quietWatch);
      return results.flatMap(({ error, warnings }) => [...(error === undefined ? [] : [error]), ...warnings]);
    }

    for (const [code, { title, why, wrong, right }] of Object.entries(pages)) {
      it(`${code} has a wrong example that gives it, and a right one that does not`, async () => {
        const said = await saidOf(wrong);
        const found = said.find((one) => one.code === code);
        assert.ok(found, `${wrong}: ${JSON.stringify(said)}`);
        assert.match(found.message, /^[A-Za-z0-9"].*[.?]$/s);
        assert.ok(!/undefined|\[object|NaN/.test(found.message), found.message);
        const after = await saidOf(right);
        assert.ok(!after.some((one) => one.code === code), `${right}: ${JSON.stringify(after)}`);
        assert.match(title, /^[A-Z].*[^.]$/);
        assert.match(why, /^[A-Z`].*[.)]$/);
      });
    }
  });
}

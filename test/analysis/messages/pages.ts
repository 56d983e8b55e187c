import { strict as assert } from 'node:assert';
import { Engine } from '../../../src/engine/engine.ts';
import type { Host } from '../../../src/engine/host.ts';
import type { MessagePage } from '../../../src/result/pages.ts';
import type { Message } from '../../../src/result/result.ts';
import { quietWatch } from '../../engine/memoryFiles.ts';
import { exampleHost } from '../../verbs/exampleHost.ts';

/**
 * Holds each page's cells against its code: the wrong one gives it, in one sentence, and the right one neither it nor any
 * error.
 */
export function describePages(
  about: string,
  pages: Readonly<Record<string, MessagePage>>,
  host: () => Host = exampleHost,
): void {
  describe(`the page of a message about ${about}`, () => {
    // One engine, so that the recordings are read once.
    let engine: Engine;
    before(() => (engine = new Engine(host())));

    async function saidOf(cell: string): Promise<{ readonly errors: Message[]; readonly all: Message[] }> {
      const { results } = await engine.run({ cells: [cell], wanted: 'all' }, quietWatch);
      const errors = results.flatMap(({ error }) => error ?? []);
      return { errors, all: [...errors, ...results.flatMap(({ warnings }) => warnings)] };
    }

    for (const [code, { title, why, wrong, right }] of Object.entries(pages)) {
      it(`${code} has a wrong example that gives it, and a right one that does not`, async () => {
        const { all: said } = await saidOf(wrong);
        const found = said.find((one) => one.code === code);
        assert.ok(found, `${wrong}: ${JSON.stringify(said)}`);
        assert.match(found.message, /^[A-Za-z0-9"].*[.?]$/s);
        assert.ok(!/undefined|\[object|NaN/.test(found.message), found.message);
        const after = await saidOf(right);
        assert.deepEqual(after.errors, [], right);
        assert.ok(!after.all.some((one) => one.code === code), `${right}: ${JSON.stringify(after)}`);
        assert.match(title, /^[A-Z].*[^.]$/);
        assert.match(why, /^[A-Z`].*[.)]$/);
      });
    }
  });
}

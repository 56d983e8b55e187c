import { strict as assert } from 'node:assert';
import { checkNotebook } from '../../src/language/check.ts';
import { messagePages } from '../../src/language/messagePages.ts';
import type { Code } from '../../src/language/facts.ts';
import type { Diagnostic } from '../../src/language/diagnostic.ts';
import { diagnoseOutside } from '../../src/language/services/diagnostics.ts';
import type { Outside } from '../../src/language/services/outside.ts';
import { catalogue } from '../../src/verbs/catalogue.ts';

/** The recordings of the pages' examples: three axes, 352 Hz, 85 s. */
const files = ['brick-foam-1.csv.gz', 'brick-gel-1.csv.gz'];
const outside: Outside = {
  list: () => Promise.resolve(files.map((name) => ({ name, folder: false }))),
  count: (pattern) =>
    Promise.resolve(
      files.some((name) =>
        new RegExp(`^raw/${pattern.slice(4).replaceAll('.', '\\.').replace('*', '.*')}$`).test(`raw/${name}`),
      )
        ? 1
        : 0,
    ),
  channels: () => Promise.resolve(['x', 'y', 'z'].map((name) => ({ name }))),
  facts: (name) =>
    name === 'foam'
      ? { kind: 'runs', summary: '', channels: ['x', 'y', 'z'], rate: 352, duration: 85 }
      : name === 'S'
        ? { kind: 'spectrum', summary: '', rate: 352 }
        : undefined,
};

async function problemsOf(cell: string): Promise<readonly Diagnostic[]> {
  const notebook = checkNotebook([cell], catalogue);
  return [...notebook.problems[0], ...(await diagnoseOutside(notebook, 0, outside))];
}

describe('the page of a message', () => {
  for (const code of Object.keys(messagePages) as Code[]) {
    const { wrong, right, title, why } = messagePages[code];
    it(`${code} has a wrong example that gives it, and a right one that gives nothing`, async () => {
      const found = await problemsOf(wrong);
      assert.ok(
        found.some((problem) => problem.code === code),
        `${wrong}: ${JSON.stringify(found)}`,
      );
      assert.deepEqual(await problemsOf(right), []);
      assert.match(title, /^[A-Z].*[^.]$/);
      assert.match(why, /^[A-Z].*[.)]$/);
    });
    it(`${code} says one sentence that ends as one`, async () => {
      const problem = (await problemsOf(wrong)).find((one) => one.code === code);
      assert.match(problem?.message ?? '', /^[`A-Z0-9.].*[.?]$/s);
      assert.ok(!/undefined|\[object|NaN/.test(problem?.message ?? 'undefined'));
    });
  }
});

import { strict as assert } from 'node:assert';
import { Engine } from '../../src/engine/engine.ts';
import { checkNotebook } from '../../src/language/check.ts';
import { readerPages } from '../../src/readers/messagePages.ts';
import { sound, type ReaderExample } from '../../src/readers/messagePages/page.ts';
import { catalogue } from '../../src/verbs/catalogue.ts';
import { MemoryHost, quietWatch } from '../engine/memoryFiles.ts';

/** An example whose file stands there in full, so that it can be read. */
const isWhole = ({ file, load }: ReaderExample): boolean =>
  file.includes('\n') && !/[…␀]/.test(file) && /^load (sheet )?"runs?\.csv"[^|\n]*$/.test(load);

/** What the example's line says: the code of its refusal, or those of its findings. `load` has dots in its own codes. */
async function codesOf({ file, load }: ReaderExample): Promise<{ readonly codes: string[]; readonly ok: boolean }> {
  const [, path] = /"([^"]*)"/.exec(load)!;
  const host = new MemoryHost({ 'foam-1.csv': sound, 'gel-1.csv': sound, [path]: file });
  const report = await new Engine(host).run({ cells: [load], wanted: 'all' }, quietWatch);
  const [{ error, value }] = report.results;
  const findings = value?.kind === 'runs' ? value.runs.flatMap((run) => run.findings) : [];
  const codes = [...(error ? [error.code] : []), ...findings.map(({ code }) => code)];
  return { ok: report.ok, codes: codes.map(dashed) };
}

const dashed = (code: string): string => code.replace('.', '-');

describe('the page of a message of the readers', () => {
  it('has a title, a sentence, and a wrong example that differs from the right one', () => {
    for (const [code, { title, why, wrong, right }] of Object.entries(readerPages)) {
      assert.match(title, /^[A-Z].*[^.]$/, code);
      assert.match(why, /^[A-Z].*\.$/, code);
      assert.notDeepEqual(wrong, right, code);
    }
  });

  it('shows lines that the language takes', () => {
    for (const [code, { wrong, right }] of Object.entries(readerPages)) {
      for (const { load } of [wrong, right]) {
        const cell = load.startsWith('load') || load.startsWith('runs =') ? load : `run = load "run.csv"\n${load}`;
        const problems = checkNotebook([cell], catalogue).problems[0].filter(({ severity }) => severity === 'error');
        assert.deepEqual(problems, [], `${code}: ${load}`);
      }
    }
  });

  const whole = Object.entries(readerPages).filter(([, { wrong, right }]) => isWhole(wrong) && isWhole(right));
  it('has examples that can be read', () => assert.ok(whole.length > 25, `${whole.length}`));
  for (const [code, { wrong, right }] of whole) {
    it(`${code} comes of its wrong example and not of its right one`, async () => {
      const bad = await codesOf(wrong);
      assert.ok(bad.codes.includes(dashed(code)), `${wrong.file}\n${wrong.load}: ${bad.codes.join(' ')}`);
      const good = await codesOf(right);
      assert.ok(good.ok && !good.codes.includes(dashed(code)), `${right.file}\n${right.load}: ${good.codes.join(' ')}`);
    });
  }
});

import { strict as assert } from 'node:assert';
import { Engine } from '../../../src/engine/engine.ts';
import { reportJson } from '../../../src/engine/json.ts';
import { verbs } from '../../../src/verbs/catalogue.ts';
import type { Verb } from '../../../src/verbs/verb.ts';
import { MemoryHost, quietWatch } from '../memoryFiles.ts';
import { mixedCells, mixedFiles } from './mixedStudy.ts';

type Changeable = { -readonly [K in 'each' | 'lists' | 'common']: Verb[K] };

/** Runs with verbs that look at all runs at once, as they do where they are asked to. */
async function atOnce<T>(work: () => Promise<T>): Promise<T> {
  const before = verbs.map(({ each, lists, common }) => ({ each, lists, common }));
  for (const verb of verbs) Object.assign(verb as Changeable, { each: undefined, lists: undefined, common: undefined });
  try {
    return await work();
  } finally {
    verbs.forEach((verb, index) => Object.assign(verb as Changeable, before[index]));
  }
}

const engineOver = (files: Record<string, string>): Engine => new Engine(new MemoryHost(files));

async function jsonOf(engine: Engine, texts: readonly string[] = mixedCells): Promise<string> {
  const report = await engine.run({ cells: texts, wanted: 'all' }, quietWatch);
  const cells = texts.map(() => ({ line: 1 }));
  return JSON.stringify(reportJson('mixed', cells, report));
}

/** Of two long texts only the place where they part is told. */
function assertSame(found: string, wanted: string): void {
  let at = 0;
  while (at < wanted.length && found[at] === wanted[at]) at++;
  assert.equal(
    found.slice(Math.max(0, at - 300), at + 200),
    wanted.slice(Math.max(0, at - 300), at + 200),
    `byte ${at}`,
  );
}

describe('a set whose runs go through their steps one by one', () => {
  const files = mixedFiles();

  it('gives to the byte what the whole set at once gives: values, warnings and failures', async () => {
    const wanted = await atOnce(() => jsonOf(engineOver(files)));
    assert.ok(wanted.includes('rate.evened') && wanted.includes('resultant.axes') && wanted.includes('trim.outside'));
    assertSame(await jsonOf(engineOver(files)), wanted);
  });

  it('tells what loading found of the channels that its expression takes, not of the others', async () => {
    const clippedIn = async (text: string): Promise<readonly number[]> => {
      const { results } = await engineOver(files).run({ cells: [text], wanted: 'all' }, quietWatch);
      return results.map(({ warnings }) => warnings.filter(({ code }) => /clipped$/.test(code)).length);
    };
    const load = 'load "raw/side-*.csv"';
    const counts: readonly (readonly [text: string, count: readonly number[]])[] = [
      [`${load} | trim 1..5 s | channel y z`, [3]],
      [`${load} | trim 1..5 s | channel z`, [0]],
      [`levels (channel (${load}) x z)`, [0]],
      [`channel (${load} in m/s^2) z`, [0]],
      [`${load} | channel x y | resultant | levels`, [3]],
      [`${load} | highpass 2 Hz | channel y`, [3]],
      [`${load} | highpass 2 Hz | channel z`, [0]],
      // The load is a statement of its own, or the step that leaves the channel out fails.
      [`s = ${load}\nchannel s z`, [3, 0]],
      [`s = ${load}\nhighpass s 2 Hz | levels`, [3, 3]],
      [`s = ${load}\nlevels (highpass s 2 Hz)[1]\nhighpass s 2 Hz | channel z | levels`, [3, 3, 0]],
      [`${load} | channel z q`, [3]],
    ];
    for (const [text, count] of counts) {
      assert.deepEqual(await clippedIn(text), count, text);
      assert.deepEqual(await atOnce(() => clippedIn(text)), count, text);
    }
  });

  it('gives the same again from memory', async () => {
    const engine = engineOver(files);
    const first = await jsonOf(engine);
    assertSame(await jsonOf(engine), first);
  });
});

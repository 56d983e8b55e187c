import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { notebookType } from '../../src/editor/names.ts';
import { outOfDate, runStale, runStaleByCount } from '../../src/editor/staleCommands.ts';
import { counted } from '../../src/result/words.ts';

interface Entry {
  readonly command: string;
  readonly title?: string;
  readonly group?: string;
  readonly when?: string;
}
const fileOf = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8')) as unknown;
const { contributes } = fileOf('package.json') as {
  contributes: { commands: Entry[]; menus: Record<'notebook/toolbar' | 'commandPalette', Entry[]> };
};
const { commands, menus } = contributes;
const ofStale = (entries: readonly Entry[]): Entry[] => entries.filter(({ command }) => command.startsWith(runStale));

/** Whether an entry of the toolbar is shown while so many cells are out of date. */
function isShown({ command, when = '' }: Entry, count: number): boolean {
  const [, type, key, operator, limit] = /^notebookType == '(.+)' && ([\w.]+) (==|>=) (\d+)$/.exec(when) ?? [];
  assert.deepEqual([type, key], [notebookType, outOfDate], `${command}: ${when}`);
  return operator === '==' ? count === Number(limit) : count >= Number(limit);
}

/** What the buttons of the toolbar that run what is out of date say while so many cells are. */
function titlesAt(count: number, language: string): string[] {
  const titles = fileOf(language) as Record<string, string>;
  return ofStale(menus['notebook/toolbar'])
    .filter((entry) => isShown(entry, count))
    .map(({ command }) => commands.find((one) => one.command === command)?.title ?? assert.fail(command))
    .map((title) => titles[title.replaceAll('%', '')]);
}

describe('the button of the toolbar that runs what is out of date', () => {
  const last = runStaleByCount.length;

  it('has one command for each count, and all of them take the same place', () => {
    assert.deepEqual(
      ofStale(commands).map(({ command }) => command),
      [runStale, ...runStaleByCount],
    );
    const buttons = ofStale(menus['notebook/toolbar']);
    assert.deepEqual(
      buttons.map(({ command }) => command),
      runStaleByCount,
    );
    assert.equal(new Set(buttons.map(({ group }) => group)).size, 1);
  });

  it('says the count in both languages, once, and is gone where nothing is out of date', () => {
    for (const language of ['package.nls.json', 'package.nls.de.json']) assert.deepEqual(titlesAt(0, language), []);
    for (let count = 1; count < last; count++) {
      assert.deepEqual(titlesAt(count, 'package.nls.json'), [`${counted(count, 'Cell')} Out of Date`]);
      assert.deepEqual(titlesAt(count, 'package.nls.de.json'), [`${counted(count, 'Zelle', 'Zellen')} veraltet`]);
    }
    for (const count of [last, last + 1, 250]) {
      assert.deepEqual(titlesAt(count, 'package.nls.json'), [`${last} or More Cells Out of Date`]);
      assert.deepEqual(titlesAt(count, 'package.nls.de.json'), [`${last} oder mehr Zellen veraltet`]);
    }
  });

  it('stands in the palette once, without a count', () => {
    const offered = ofStale(menus.commandPalette).filter(({ when }) => when !== 'false');
    assert.deepEqual(
      offered.map(({ command }) => command),
      [runStale],
    );
    assert.deepEqual(
      ofStale(menus.commandPalette).map(({ command }) => command),
      [runStale, ...runStaleByCount],
    );
  });
});

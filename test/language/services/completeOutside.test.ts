import { strict as assert } from 'node:assert';
import { completionsAt } from '../../../src/language/services/completion.ts';
import { nowhere, type ChannelFacts, type FolderEntry, type Outside } from '../../../src/language/services/outside.ts';
import type { Completion } from '../../../src/language/services/offer.ts';
import { marked } from './marked.ts';

const file = (name: string): FolderEntry => ({ name, folder: false });
const folder = (name: string): FolderEntry => ({ name, folder: true });

/** A world with these entries in every folder, and these channels in every file; it notes what it was asked. */
function worldOf(
  entries: readonly FolderEntry[],
  channels: readonly ChannelFacts[] = [],
): Outside & { readonly asked: string[] } {
  const asked: string[] = [];
  return {
    ...nowhere,
    asked,
    list: (path) => (asked.push(path), Promise.resolve(entries)),
    channels: (pattern) => (asked.push(pattern), Promise.resolve(channels)),
  };
}

async function offered(outside: Outside, ...cells: string[]): Promise<readonly Completion[]> {
  const { notebook, cell, offset } = marked(...cells);
  return completionsAt(notebook, cell, offset, outside);
}

const insertsOf = (completions: readonly Completion[]): string[] => completions.map(({ insert }) => insert);

describe('files that are offered', () => {
  it('put patterns first, then what a logger writes, then folders, then the rest; hidden ones are left out', async () => {
    const entries = [
      file('notes.md'),
      folder('old'),
      file('b.csv'),
      file('run 2.wav'),
      file('.x.csv'),
      file('run 1.wav'),
    ];
    assert.deepEqual(insertsOf(await offered(worldOf(entries), 'load "¦')), [
      'run *.wav',
      'b.csv',
      'run 2.wav',
      'run 1.wav',
      'old/',
      'notes.md',
    ]);
  });

  it('stand in quotes where none do yet; a folder’s stays open, since its files are wanted next', async () => {
    const found = await offered(worldOf([folder('old'), file('b.csv')]), 'load ¦');
    const shown = found.filter(({ kind }) => kind === 'file' || kind === 'folder');
    assert.deepEqual(insertsOf(shown), ['"b.csv"', '"old/']);
    assert.deepEqual(
      shown.map(({ again }) => again === true),
      [false, true],
    );
  });

  it('know each ending of a recording, whatever its case, and only at the end of a name', async () => {
    const endings = [
      'csv',
      'tsv',
      'txt',
      'dat',
      'log',
      'json',
      'wav',
      'parquet',
      'npy',
      'mat',
      'uff',
      'unv',
      'gz',
      'zip',
    ];
    const readable = [...endings.map((ending) => file(`a.${ending}`)), file('A.CSV')];
    const found = await offered(worldOf([file('a.csv.bak'), file('csv'), ...readable]), 'load "¦');
    assert.deepEqual(
      insertsOf(found).slice(0, -2),
      readable.map(({ name }) => name),
    );
    assert.deepEqual(insertsOf(found).slice(-2), ['a.csv.bak', 'csv']);
  });

  it('are those of the folder that is written so far', async () => {
    const world = worldOf([file('b.csv')]);
    assert.deepEqual(insertsOf(await offered(world, 'load "raw/day 1/b¦')), ['raw/day 1/b.csv']);
    assert.deepEqual(world.asked, ['raw/day 1/']);
  });

  it('share a pattern where two or more differ in their last number alone', async () => {
    const names = ['a1-x2.csv', 'a1-x10.csv', 'a2-x3.csv', 'lone-7.csv', 'plain.csv', 'p1.md', 'p2.md'];
    const found = await offered(worldOf([...names.map(file), folder('d1.csv'), folder('d2.csv')]), 'load "¦');
    assert.deepEqual(
      found.filter(({ label }) => label.includes('*')).map(({ label, detail, kind }) => [label, detail, kind]),
      [['a1-x*.csv', '2 files', 'file']],
    );
  });

  it('are not looked for where no file is wanted', async () => {
    const world = worldOf([file('b.csv')]);
    await offered(world, 'plot (load "a.csv") title "¦');
    assert.deepEqual(world.asked, []);
  });
});

describe('channels that are offered', () => {
  const channels = [{ name: 'x', header: 'ax_g', unit: 'g' }, { name: 'y', header: 'y' }, { name: 'spalte 4' }];

  it('tell header and unit, but not the name again, and stand in quotes where they are no single word', async () => {
    const found = (await offered(worldOf([], channels), 'load "a.csv" | channel ¦')).filter(
      ({ kind }) => kind === 'channel',
    );
    assert.deepEqual(
      found.map(({ label, detail, insert }) => [label, detail, insert]),
      [
        ['x', 'ax_g, g', 'x'],
        ['y', undefined, 'y'],
        ['spalte 4', undefined, '"spalte 4"'],
      ],
    );
  });

  for (const [what, ...cells] of [
    ['the file of the call itself', 'load "a.csv" channel ¦'],
    ['what comes down the pipe', 'load "a.csv" | trim 1..2 s | channel ¦'],
    ['a name', 'r = load "a.csv"', 'channel r ¦'],
    ['a name of a name', 'r = load "a.csv"\nq = detrend r', 'channel q ¦'],
    ['a picked run', 'r = load "a.csv"', 'channel r[1] ¦'],
    ['a step in brackets', 'channel (load "a.csv") ¦'],
  ] as const) {
    it(`are looked up in the file behind ${what}`, async () => {
      const world = worldOf([], channels);
      const found = await offered(world, ...cells);
      assert.deepEqual(
        found.filter(({ kind }) => kind === 'channel').map(({ label }) => label),
        ['x', 'y', 'spalte 4'],
      );
      assert.deepEqual(world.asked, ['a.csv']);
    });
  }

  it('are none where nothing says of which file', async () => {
    const world = worldOf([], channels);
    for (const cell of ['channel ¦', 'channel q ¦', 'channel 1..2 s ¦'])
      assert.deepEqual(
        (await offered(world, cell)).filter(({ kind }) => kind === 'channel'),
        [],
        cell,
      );
    assert.deepEqual(world.asked, []);
  });
});

import { checkNotebook, type CheckedNotebook } from '../../../src/language/check.ts';
import type { Facts, FolderEntry, Outside } from '../../../src/language/services/outside.ts';
import { catalogue } from '../catalogue.ts';

const mark = '¦';

/** A notebook of which one cell holds the caret mark ¦. */
export function marked(...cells: string[]): { notebook: CheckedNotebook; cell: number; offset: number; text: string } {
  const cell = cells.findIndex((text) => text.includes(mark));
  const offset = cells[cell].indexOf(mark);
  const clean = cells.map((text) => text.replace(mark, ''));
  return { notebook: checkNotebook(clean, catalogue), cell, offset, text: clean[cell] };
}

/** Names bound to one value of each usual kind, in a cell before. */
export const ground = [
  'r = load "raw/a*.csv"',
  'S = spectrum r',
  'W = window hann 2 s',
  'C = compare r with r',
  'L = levels r',
  'f0 = 10 Hz',
  'k = 40 N/mm',
].join('\n');

export const channels = [
  { name: 'x', header: 'ax_g', unit: 'g' },
  { name: 'y', header: 'ay_g', unit: 'g' },
  { name: 'column 4' },
];

/** A world in memory, which counts what it was asked. */
export class Memory implements Outside {
  readonly asked: string[] = [];
  readonly #folders: Readonly<Record<string, readonly FolderEntry[]>> = {
    '': [
      { name: 'raw', folder: true },
      { name: 'notes.md', folder: false },
      { name: '.git', folder: true },
    ],
    'raw/': ['foam-1.csv', 'foam-2.csv', 'gel-1.csv.gz'].map((name) => ({ name, folder: false })),
  };
  readonly #facts: Readonly<Record<string, Facts>> = {
    r: {
      kind: 'runs',
      summary: '4 runs, x y z in g, 352 Hz, 85 s',
      channels: ['x', 'y', 'z'],
      unit: 'g',
      rate: 352,
      duration: 85,
    },
    S: { kind: 'spectrum', summary: '4 spectra, 0.5 Hz apart', rate: 352 },
  };

  list(folder: string): Promise<readonly FolderEntry[]> {
    this.asked.push(`list ${folder}`);
    return Promise.resolve(this.#folders[folder] ?? []);
  }

  count(pattern: string): Promise<number> {
    this.asked.push(`count ${pattern}`);
    return Promise.resolve(pattern.includes('*') ? 4 : pattern === 'raw/foam-1.csv' ? 1 : 0);
  }

  channels(pattern: string): Promise<typeof channels> {
    this.asked.push(`channels ${pattern}`);
    return Promise.resolve(channels);
  }

  facts(name: string): Facts | undefined {
    return this.#facts[name];
  }
}

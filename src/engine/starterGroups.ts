import { bareName, fileOf, folderOf } from '../result/fileNames.ts';
import { grouped } from '../numbers/grouped.ts';
import { catalogue } from '../verbs/catalogue.ts';
import { vocabularyOf } from '../language/vocabulary.ts';

/** One set of runs: files whose names differ only in a number at the end. */
export interface Group {
  readonly name: string;
  readonly paths: readonly string[];
}

/** Names that say of themselves that nothing was changed yet. */
const unchanged =
  /^(?:before|base|baseline|stock|standard|original|reference|old|without|vorher|ohne|alt)(?:$|[-_ .\d])/i;

/** The sets of runs among files, that of before the change first where a name says which it is. */
export function groupsOf(paths: readonly string[]): Group[] {
  const taken = new Set<string>();
  const sets = grouped(paths, (path) => `${folderOf(path)}${stemOf(path)}`);
  const first = sets.findIndex(([path]) => unchanged.test(fileOf(path)));
  const ordered = first < 0 ? sets : [sets[first], ...sets.filter((_, index) => index !== first)];
  return ordered.map((files) => {
    const name = freeName(stemOf(files[0]), taken);
    taken.add(name);
    return { name, paths: files };
  });
}

const { verbs, functions, keywords, words } = vocabularyOf(catalogue);
const reserved = new Set([...verbs.keys(), ...functions.keys(), ...keywords, ...words]);

/** The name without its ending and without the number it ends with. */
function stemOf(path: string): string {
  const bare = bareName(path);
  const stem = bare.replace(/[-_ .]*\d+$/, '');
  return stem === '' ? bare : stem;
}

/** A name of the language that no other set has and that is no verb's. */
function freeName(stem: string, taken: ReadonlySet<string>): string {
  const plain = stem
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9]+/g, '_')
    .replace(/^_+|_+$/g, '')
    .toLowerCase();
  const base = /^[a-z]/.test(plain) ? plain : `runs_${plain}`.replace(/_$/, '');
  const word = reserved.has(base) ? `${base}_runs` : base;
  for (let n = 1; ; n++) {
    const name = n === 1 ? word : `${word}_${n}`;
    if (!taken.has(name)) return name;
  }
}

import { catalogue } from '../verbs/language.ts';
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
  const groups = new Map<string, string[]>();
  for (const path of paths) {
    const key = `${folderOf(path)}${stemOf(path)}`;
    groups.set(key, [...(groups.get(key) ?? []), path]);
  }
  const taken = new Set<string>();
  const sets = [...groups.values()];
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

const folderOf = (path: string): string => path.slice(0, path.lastIndexOf('/') + 1);
const fileOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);
const endingOf = (path: string): string => /(\.[A-Za-z0-9]{1,8}){1,2}$/.exec(fileOf(path))?.[0] ?? '';

/** The name without its ending and without the number it ends with. */
function stemOf(path: string): string {
  const bare = fileOf(path).slice(0, fileOf(path).length - endingOf(path).length);
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

/** The narrowest pattern if it stands for exactly these files, else the files one by one. */
export function filesText(files: readonly string[], besides: readonly string[]): string {
  const quoted = (path: string): string => `"${path}"`;
  if (files.length < 2) return quoted(files[0]);
  const head = `${folderOf(files[0])}${commonStart(files.map((path) => fileOf(path)))}`;
  const ending = endingOf(files[0]);
  const meant = besides.filter(
    (path) => path.startsWith(head) && path.endsWith(ending) && !path.slice(head.length).includes('/'),
  );
  const exact = meant.length === files.length && files.every((path) => meant.includes(path));
  return exact && !/[*?]/.test(head) ? quoted(`${head}*${ending}`) : files.map(quoted).join(', ');
}

function commonStart(names: readonly string[]): string {
  let start = names[0];
  for (const name of names) while (!name.startsWith(start)) start = start.slice(0, -1);
  // A shared first digit belongs to the number.
  return start.replace(/\d+$/, '');
}

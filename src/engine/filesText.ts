import { endingOf, fileOf, folderOf } from '../result/fileNames.ts';
import { visibleLine } from '../result/visible.ts';

/**
 * Whether a path can stand in a notebook as it is: texts have no escapes, a backslash parts folders there, and signs that steer a
 * terminal or turn the writing around show another name.
 */
export const canBeWritten = (path: string): boolean => !/["\\]/.test(path) && visibleLine(path) === path;

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

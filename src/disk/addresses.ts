import { slashed } from './slashed.ts';

// Absolute paths with `/`, as addresses have them: they need no system to be reckoned with.

const partsOf = (path: string): string[] =>
  slashed(path)
    .split('/')
    .filter((part) => part !== '' && part !== '.');

/** What a path names from a folder, without `.` and `..`; above the top there is nothing but the top. */
export function resolvedPath(folder: string, path: string): string {
  const parts: string[] = [];
  for (const part of [...partsOf(folder), ...partsOf(path)]) {
    if (part === '..') parts.pop();
    else parts.push(part);
  }
  return `/${parts.join('/')}`;
}

/** The path that leads from a folder to what has another absolute path. */
export function relativePath(folder: string, path: string): string {
  const [from, to] = [folder, path].map((one) => partsOf(withDrive(one)));
  let same = 0;
  while (same < from.length && same < to.length && from[same] === to[same]) same++;
  return [...from.slice(same).map(() => '..'), ...to.slice(same)].join('/');
}

/** Whether a path is a folder's or leads into it, both without `.` and `..`. */
export const isWithin = (folder: string, path: string): boolean =>
  path === folder || path.startsWith(folder === '/' ? '/' : `${folder}/`);

/** The letter of a drive is written in both cases. */
const withDrive = (path: string): string => path.replace(/^\/[A-Z]:/, (drive) => drive.toLowerCase());

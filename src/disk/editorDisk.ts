import type { Disk } from './disk.ts';
import type { EditorFiles } from './editorFiles.ts';
import { slashed } from './slashed.ts';

/**
 * A project's folder in a file system that an editor stands for. Such a system resolves no links: where a level below the
 * project's folder is one, it is not known where that leads.
 *
 * @param root the project's folder, an absolute path with `/`
 */
export function editorDisk(files: EditorFiles, root: string): Disk {
  const top = resolved('/', root);
  return {
    resolve: resolved,
    relative: (folder, address) => {
      const [from, to] = [partsOf(folder), partsOf(address)];
      let same = 0;
      while (same < from.length && from[same] === to[same]) same++;
      return [...from.slice(same).map(() => '..'), ...to.slice(same)].join('/');
    },
    within,
    stat: (address) => files.stat(address),
    list: async (address) =>
      (await files.list(address))?.map(({ name, stat }) => ({ name, kind: stat.isLink ? 'link' : stat.kind })),
    async real(address) {
      if (!within(top, address)) return address;
      let level = top;
      for (const part of partsOf(address.slice(top.length))) {
        level = resolved(level, part);
        const found = await files.stat(level);
        if (found === undefined) return undefined;
        if (found.isLink) return 'hidden';
      }
      return address;
    },
  };
}

const partsOf = (path: string): string[] =>
  slashed(path)
    .split('/')
    .filter((part) => part !== '' && part !== '.');

/** An absolute path without `.` and `..`; above the top there is nothing but the top. */
function resolved(folder: string, path: string): string {
  const parts: string[] = [];
  for (const part of [...partsOf(folder), ...partsOf(path)]) {
    if (part === '..') parts.pop();
    else parts.push(part);
  }
  return `/${parts.join('/')}`;
}

const within = (folder: string, address: string): boolean =>
  address === folder || address.startsWith(folder === '/' ? '/' : `${folder}/`);

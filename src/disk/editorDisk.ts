import { isWithin, relativePath, resolvedPath } from './addresses.ts';
import type { Disk } from './disk.ts';
import type { EditorFiles } from './editorFiles.ts';

/**
 * A project's folder in a file system that an editor stands for. Such a system resolves no links: where a level below the
 * project's folder is one, it is not known where that leads.
 *
 * @param root the project's folder, an absolute path with `/`
 */
export function editorDisk(files: EditorFiles, root: string): Disk {
  const top = resolvedPath('/', root);
  return {
    resolve: resolvedPath,
    relative: relativePath,
    within: isWithin,
    stat: (address) => files.stat(address),
    list: async (address) =>
      (await files.list(address))?.map(({ name, stat }) => ({ name, kind: stat.isLink ? 'link' : stat.kind })),
    async real(address) {
      if (!isWithin(top, address)) return address;
      let level = top;
      for (const part of relativePath(top, address).split('/')) {
        level = resolvedPath(level, part);
        const found = await files.stat(level);
        if (found === undefined) return undefined;
        if (found.isLink && level !== top) return null;
      }
      return address;
    },
  };
}

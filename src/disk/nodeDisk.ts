import { promises as fs, type Dirent } from 'node:fs';
import { relative, resolve, sep } from 'node:path';
import type { Disk, DiskEntry } from './disk.ts';
import { slashed } from './slashed.ts';

/** The disk of this machine. */
export const nodeDisk: Disk = {
  resolve,
  relative: (folder, address) => slashed(relative(folder, address)),
  within: (folder, address) => address === folder || address.startsWith(folder + sep),
  stat: async (address) => {
    const found = await fs.stat(address).catch(() => undefined);
    if (found === undefined) return undefined;
    return { kind: found.isDirectory() ? 'folder' : found.isFile() ? 'file' : 'other', size: found.size };
  },
  list: async (address) =>
    (await fs.readdir(address, { withFileTypes: true }).catch(() => undefined))?.map((entry) => ({
      name: entry.name,
      kind: kindOf(entry),
    })),
  real: (address) => fs.realpath(address).catch(() => undefined),
};

function kindOf(entry: Dirent): DiskEntry['kind'] {
  if (entry.isDirectory()) return 'folder';
  if (entry.isSymbolicLink()) return 'link';
  return entry.isFile() ? 'file' : 'other';
}

import { isSystemRefusal } from '../result/environment.ts';

/** Why the disk refused what was asked of it: a word of ours, or the system's own code. */
export interface DiskFault {
  readonly reason: 'full' | 'missing' | 'blocked' | 'folder' | 'device' | 'denied' | 'long' | 'other';
  /** The system's code, as `EIO`. */
  readonly system?: string;
}

const reasons: ReadonlyMap<string, DiskFault['reason']> = new Map([
  ['ENOSPC', 'full'],
  ['EDQUOT', 'full'],
  ['ENOENT', 'missing'],
  ['ENOTDIR', 'blocked'],
  ['EISDIR', 'folder'],
  ['EEXIST', 'folder'],
  ['EACCES', 'denied'],
  ['EPERM', 'denied'],
  ['EROFS', 'denied'],
  ['ENAMETOOLONG', 'long'],
]);

/** What an exception of the file system tells; any other is thrown on, for it is a fault of the program. */
export function reasonOf(error: unknown): DiskFault {
  if (!isSystemRefusal(error)) throw error;
  return { reason: reasons.get(error.code) ?? 'other', system: error.code };
}

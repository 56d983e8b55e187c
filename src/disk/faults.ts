/** Why the disk refused what was asked of it: a word of ours, or the system's own code. */
export interface DiskFault {
  readonly reason: 'full' | 'missing' | 'folder' | 'device' | 'denied' | 'long' | 'other';
  /** The system's code, as `EIO`. */
  readonly system?: string;
}

const reasons: ReadonlyMap<string, DiskFault['reason']> = new Map([
  ['ENOSPC', 'full'],
  ['EDQUOT', 'full'],
  ['ENOENT', 'missing'],
  ['ENOTDIR', 'missing'],
  ['EISDIR', 'folder'],
  ['EEXIST', 'folder'],
  ['EACCES', 'denied'],
  ['EPERM', 'denied'],
  ['EROFS', 'denied'],
  ['ENAMETOOLONG', 'long'],
]);

/** Whether an exception is the system's refusal of an operation, and so no fault of the program. */
export const isDiskFault = (error: unknown): error is NodeJS.ErrnoException & { readonly code: string } =>
  error instanceof Error && 'syscall' in error && 'code' in error && typeof error.code === 'string';

/** What an exception of the file system tells; any other is thrown on, for it is a fault of the program. */
export function reasonOf(error: unknown): DiskFault {
  if (!isDiskFault(error)) throw error;
  return { reason: reasons.get(error.code) ?? 'other', system: error.code };
}

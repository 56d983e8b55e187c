/** What lies at an address. */
export interface DiskStat {
  readonly kind: 'file' | 'folder' | 'other';
  /** In bytes. */
  readonly size: number;
}

/** What a folder holds under a name; where a link leads is asked by its address. */
export interface DiskEntry {
  readonly name: string;
  readonly kind: 'file' | 'folder' | 'link' | 'other';
}

/**
 * A file system as far as finding a project's files goes: this machine's, or one that an editor stands for. Addresses are
 * absolute and its own; nothing here fails for what is not there.
 */
export interface Disk {
  /** The address of what a path names from a folder, without `.` and `..`. */
  resolve(folder: string, path: string): string;
  /** The path of an address from a folder, with `/`. */
  relative(folder: string, address: string): string;
  /** Whether an address is a folder's or lies in it, as both are written. */
  within(folder: string, address: string): boolean;
  stat(address: string): Promise<DiskStat | undefined>;
  list(address: string): Promise<readonly DiskEntry[] | undefined>;
  /** The address without links; undefined where nothing is there, null where a link does not tell where it leads. */
  real(address: string): Promise<string | null | undefined>;
}

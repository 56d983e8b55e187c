/** What an editor says of a file or folder. */
export interface EditorStat {
  readonly kind: 'file' | 'folder' | 'other';
  readonly isLink: boolean;
  /** In bytes. */
  readonly size: number;
  /** When it was last changed, in ms since 1970; 0 where the file system does not tell. */
  readonly changed: number;
}

/** Bytes, or why there are none: the system's code, as `EACCES`. */
export type EditorBytes = { readonly bytes: Uint8Array } | { readonly refused: string };

/**
 * A file system that an editor stands for, by absolute paths with `/`. It gives a file's bytes only as a whole. What is not
 * there is undefined.
 */
export interface EditorFiles {
  stat(path: string): Promise<EditorStat | undefined>;
  list(
    path: string,
  ): Promise<readonly { readonly name: string; readonly stat: Omit<EditorStat, 'size' | 'changed'> }[] | undefined>;
  read(path: string): Promise<EditorBytes>;
}

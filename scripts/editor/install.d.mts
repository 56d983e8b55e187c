/** A served editor on this machine: its folder, the Node that it brings, and its server's program. */
export interface Editor {
  readonly folder: string;
  readonly node: string;
  readonly server: string;
}

/** The served editor, fetched first if it is not there yet. */
export function installEditor(say?: (line: string) => void, which?: 'newest' | 'oldest'): Promise<Editor>;

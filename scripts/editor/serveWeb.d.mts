/** An editor that runs in the browser alone. */
export interface WebEditor {
  readonly url: string;
  /** What the helper told under a name, as text; undefined until it did. */
  report(name: string): string | undefined;
  stop(): Promise<void>;
}

export function serveWeb(options: {
  /** The folder that the editor opens as a virtual one. */
  readonly workspace: string;
  /** Folder of the extension under test. */
  readonly extension: string;
  /** Folder of an extension for the browser that gives the workspace's file system. */
  readonly helper: string;
  readonly settings?: Readonly<Record<string, unknown>>;
  readonly which?: 'newest' | 'oldest';
  readonly say?: (line: string) => void;
}): Promise<WebEditor>;

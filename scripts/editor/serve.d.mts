/** A served editor. */
export interface ServedEditor {
  /** The address that opens the workspace. */
  readonly url: string;
  readonly origin: string;
  readonly port: number;
  readonly workspace: string;
  readonly themes: Readonly<Record<'light' | 'dark' | 'high-contrast' | 'high-contrast-light', string>>;
  /** The end of the server's log. */
  log(): string;
  /** Ends the server with all that it started. */
  stop(): Promise<void>;
}

export interface ServeOptions {
  /** The folder that is opened. */
  readonly workspace: string;
  /** The extension under development: this project if left out; null for none. */
  readonly extension?: string | null;
  /** Which editor; the newest unless said. */
  readonly which?: 'newest' | 'oldest';
  /** A folder with installed extensions. */
  readonly extensionsDir?: string;
  /** User settings. */
  readonly settings?: Readonly<Record<string, unknown>>;
  /** A file of the workspace to open. */
  readonly open?: string;
  /** A module whose `run` the extension host calls. */
  readonly suite?: string;
  readonly host?: string;
  readonly port?: number;
  /** Added to the environment of the server and of the extension host. */
  readonly env?: Readonly<Record<string, string>>;
  readonly say?: (line: string) => void;
}

export function serveEditor(options: ServeOptions): Promise<ServedEditor>;

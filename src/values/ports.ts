import type { ByteSource } from '../readers/recording.ts';
import type { Result } from '../result/result.ts';

/** The project's files, read only. Paths are relative to the notebook's folder, with `/`. */
export interface Files {
  /**
   * Paths that a name or a pattern with `*` and `?` stands for, in natural order; or why none may be read.
   * @param of the line that names it, where that is not the call itself: `runs.csv:3`
   */
  expand(pattern: string, of?: string): Promise<Result<readonly string[]>>;
  /** The file's bytes; of an `identity` that was told of it before, the very bytes that were hashed, or a fault. */
  open(path: string, identity?: FileIdentity): Promise<ByteSource>;
  identify(path: string): Promise<FileIdentity>;
}

/** Size and SHA-256 (lower-case hex) of a file's bytes. */
export interface FileIdentity {
  readonly bytes: number;
  readonly sha256: string;
}

/** A moment in a project's history: the commit, and its time in s since 1970. */
export interface Commit {
  readonly id: string;
  readonly at: number;
}

/** What a project's history tells of the notebook's folder as it stands, read only. */
export interface History {
  /** The commit that the project stands at, on which every answer rests; undefined where there is no history. */
  head(): Promise<string | undefined>;
  /** Since when a notebook in the folder holds this text as it is; null where none does, undefined where that cannot be told. */
  textSince(text: string): Promise<Commit | null | undefined>;
  /** When the first of these files came in; null where none has, undefined where that cannot be told. */
  firstOf(paths: readonly string[]): Promise<Commit | null | undefined>;
}

/** How the host stops and watches long work. */
export interface Watch {
  readonly cancelled: () => boolean;
  /** Of the work in hand, 0 to 1, and what it is. */
  readonly progress: (fraction: number, what: string) => void;
}

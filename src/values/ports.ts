import type { ByteSource, ReadOptions, Recording } from '../readers/recording.ts';
import type { Result } from '../result/result.ts';
import type { Density, WelchOptions } from '../signal/welch.ts';

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
  /** The identity as far as size and time tell it, without a look at the bytes; undefined where they don't. */
  known?(path: string): Promise<FileIdentity | undefined>;
  /**
   * Reads recordings, each from its file in one go, as many at a time as the host can: answers in order, whatever ends
   * first. Where a host has no such way, recordings are read one by one from what `open` gives.
   */
  read?(wanted: readonly WantedRecording[], watch: Watch): Promise<ReadRecording>[];
  /**
   * Densities as `welchDensity` makes them, several at a time beside this thread, in order; undefined of those that were
   * not made, which are then made here. Only where a host has other threads.
   */
  densities?(wanted: readonly WantedDensity[], watch: Watch): Promise<readonly (Density | undefined)[]>;
}

/** A signal whose density is to be made, in its unbroken pieces. */
export interface WantedDensity {
  readonly pieces: readonly Float64Array[];
  readonly options: Pick<WelchOptions, 'shape' | 'rate' | 'overlap'>;
}

/** A recording that is to be read. */
export interface WantedRecording {
  readonly path: string;
  readonly options: ReadOptions;
  /** The channels whose samples are needed; none named: those that are taken then. */
  readonly channels: readonly string[];
  /** What the bytes have to be, where they were told of before: of others the recording is refused. */
  readonly identity?: FileIdentity | undefined;
}

/** A recording, or why it can't be read, and the bytes that it was read from; undefined where there were none. */
export interface ReadRecording {
  readonly recording: Result<Recording>;
  readonly identity: FileIdentity | undefined;
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

import type { ValueKind } from '../form.ts';

/** What the services may ask of the world around the notebook. Every host supplies its own; tests an in-memory one. */
export interface Outside {
  /** Files and folders in a folder relative to the notebook's, with `/`; the empty path is the notebook's own. */
  list(folder: string): Promise<readonly FolderEntry[]>;
  /** How many of the project's files a name or a pattern with `*` and `?` stands for. */
  count(pattern: string): Promise<number>;
  /** Channels of the first file that a pattern stands for; empty when it cannot be read. */
  channels(pattern: string): Promise<readonly ChannelFacts[]>;
  /** What is known of a name's value since it was last run. */
  facts(name: string): Facts | undefined;
}

export interface FolderEntry {
  readonly name: string;
  readonly folder: boolean;
}

export interface ChannelFacts {
  /** As the language calls it: `x`, `column1`. */
  readonly name: string;
  /** As the file spells it. */
  readonly header?: string;
  readonly unit?: string;
}

export interface Facts {
  readonly kind: ValueKind;
  /** The value in short: unit, runs, rate, duration, spacing. */
  readonly summary: string;
  readonly channels?: readonly string[];
  readonly unit?: string;
  /** Of the slowest run, in Hz. */
  readonly rate?: number;
  /** What all runs have in common, in s from the start of each. */
  readonly duration?: number;
}

/** A world in which nothing is known, and so no file is missing. */
export const nowhere: Outside = {
  list: () => Promise.resolve([]),
  count: () => Promise.resolve(1),
  channels: () => Promise.resolve([]),
  facts: () => undefined,
};

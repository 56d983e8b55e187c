import type { Message, Warning } from '../result/result.ts';
import { listed } from '../result/words.ts';

/** A warning about one run or channel, which may be told of others in the same breath. */
export interface RunWarning {
  readonly code: string;
  /** What it is about, as its message calls it. */
  readonly of: string;
  /** What else must be the same for two warnings of one code to be told as one. */
  readonly sameFor?: string;
  /** The message, which also says of which others the same is true. */
  readonly tell: (others: readonly string[]) => Warning;
}

/**
 * Warnings that differ only in what they are about, told once: the first in full, and which others it goes for.
 *
 * @returns one warning for each code and each `sameFor` among `found`, in the order of their first ones.
 */
export function together(found: readonly RunWarning[]): Warning[] {
  const groups = new Map<string, RunWarning[]>();
  for (const one of found) {
    const key = `${one.code} ${one.sameFor ?? ''}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].map(([first, ...rest]) =>
    first.tell([...new Set(rest.map(({ of }) => of))].filter((of) => of !== first.of)),
  );
}

/** Those of the `messages` that say what none before them has said. */
export const eachOnce = <T extends Message>(messages: readonly T[]): T[] =>
  messages.filter(({ message }, index) => messages.findIndex((other) => other.message === message) === index);

/**
 * The end of a message that goes for others, too.
 *
 * @returns a sentence that names `others`, with a blank before it, or nothing where there are none.
 */
export const alsoOf = (others: readonly string[]): string =>
  others.length === 0 ? '' : ` Much the same goes for ${listed(others)}.`;

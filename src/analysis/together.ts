import { grouped } from '../numbers/grouped.ts';
import type { Message, Warning } from '../result/result.ts';
import { listedInFew } from '../result/words.ts';

/** A warning about one run or channel, which may be told of others in the same breath. */
export interface RunWarning {
  readonly code: string;
  /** What it is about, as its message calls it. */
  readonly of: string;
  /** What else must be the same for two warnings of one code to be told as one. */
  readonly sameFor?: string;
  /** Its place among what its step tells: the lower first, those without one last. */
  readonly rank?: number;
  /** The message, which also says of which others the same is true. */
  readonly tell: (others: readonly string[]) => Message;
}

/**
 * Warnings that differ only in what they are about, told once: the first in full, and which others it goes for.
 *
 * @returns one warning for each code and each `sameFor` among `found`, in the order of their first ones.
 */
export function together(found: readonly RunWarning[]): Warning[] {
  return grouped(found, ({ code, sameFor = '' }) => `${code} ${sameFor}`).map(
    ([{ of, sameFor, rank, tell }, ...rest]) => {
      const others = [...new Set(rest.map((one) => one.of))].filter((one) => one !== of);
      const how = { ...(sameFor === undefined ? {} : { sameFor }), ...(rank === undefined ? {} : { rank }) };
      return { ...tell(others), about: { of, others, ...how } };
    },
  );
}

/** Those of the `messages` that say what none before them has said. */
export function eachOnce<T extends Message>(messages: readonly T[]): T[] {
  const first = new Map<string, T>();
  for (const one of messages) if (!first.has(one.message)) first.set(one.message, one);
  return [...first.values()];
}

/**
 * The end of a message that goes for others, too.
 *
 * @param range what the message's figure is of them, in words
 * @returns a sentence that names `others`, with a blank before it, or nothing where there are none.
 */
export const alsoOf = (others: readonly string[], range?: string): string =>
  others.length === 0
    ? ''
    : ` Much the same goes for ${listedInFew(others)}${range === undefined ? '' : ` (${range})`}.`;

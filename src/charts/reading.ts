import type { Message, Output, Part } from './output.ts';

/** An output as it is read from top to bottom. */
export interface Reading {
  /** Errors, and what keeps a verdict back. */
  readonly above: readonly Message[];
  /** The sentences that it opens with; all parts where it opens with a picture or a table. */
  readonly answer: readonly Part[];
  /** What else is to be known of the answer. */
  readonly below: readonly Message[];
  readonly rest: readonly Part[];
}

/** The answer first, then what there is to say about it, then pictures and tables. */
export function readingOf({ parts, messages }: Pick<Output, 'parts' | 'messages'>): Reading {
  const isAbove = ({ severity, withholds }: Message): boolean => severity === 'error' || withholds === true;
  const opening = parts.findIndex(({ type }) => type !== 'text');
  const end = opening <= 0 ? parts.length : opening;
  return {
    above: messages.filter(isAbove),
    answer: parts.slice(0, end),
    below: messages.filter((message) => !isAbove(message)),
    rest: parts.slice(end),
  };
}

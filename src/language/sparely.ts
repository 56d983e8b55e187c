const nothing: readonly never[] = [];

/**
 * A list that is kept for as long as its notebook, without the room that it grew into: a list of one takes up that of
 * seventeen, and a notebook keeps a dozen lists a statement.
 */
export const sparely = <T>(list: readonly T[]): readonly T[] => (list.length > 0 ? list.slice() : nothing);

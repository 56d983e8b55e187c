export interface Room {
  readonly imports: readonly string[];
  /** Rooms of which it may import types alone. */
  readonly types?: readonly string[];
  readonly ambient: readonly string[];
  /** Declarations of untyped packages that stand in another room. */
  readonly declarations?: readonly string[];
  readonly packages: readonly string[];
}
/** The rooms whose sources decide what a result is. */
export const deciding: readonly string[];
export const rooms: Readonly<Record<string, Room>>;

export interface Room {
  readonly imports: readonly string[];
  readonly ambient: readonly string[];
  readonly packages: readonly string[];
}
export const rooms: Readonly<Record<string, Room>>;

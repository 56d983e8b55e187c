import type { Refused, Success, Warning } from '../result/result.ts';

/** What a step of the analysis gives: a value with what has to be said beside it, or why there is none. */
export type Answer<T> = Answered<T> | Refused;

export interface Answered<T> extends Success<T> {
  readonly warnings: readonly Warning[];
}

/** A value with its warnings, none unless given. */
export const answered = <T>(value: T, warnings: readonly Warning[] = []): Answered<T> => ({
  ok: true,
  value,
  warnings,
});

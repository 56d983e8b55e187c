import type { Finding, Severity } from './recording.ts';

const order: Readonly<Record<Severity, number>> = { fault: 0, warning: 1, note: 2 };

/** The most serious first; among equals in the order given. */
export function worstFirst<T>(items: readonly T[], finding: (item: T) => Finding): T[] {
  return [...items].sort((a, b) => order[finding(a).severity] - order[finding(b).severity]);
}

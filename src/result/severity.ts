/** How serious a finding about data is, the most serious first. */
export const severities = ['fault', 'warning', 'note'] as const;

export type Severity = (typeof severities)[number];

/** The most serious first; among equals in the order given. */
export function worstFirst<T>(items: readonly T[], finding: (item: T) => { readonly severity: Severity }): T[] {
  const rank = (item: T): number => severities.indexOf(finding(item).severity);
  return [...items].sort((a, b) => rank(a) - rank(b));
}

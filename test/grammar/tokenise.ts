import { readFileSync } from 'node:fs';

interface Rule {
  readonly match: string;
  readonly name?: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
}

export interface Grammar {
  readonly scopeName: string;
  readonly patterns: readonly Rule[];
}

export const read = (path: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8'));

export interface Scoped {
  readonly text: string;
  readonly scope: string;
}

/**
 * Colours one line as a TextMate engine does with a grammar without nesting: of all rules the one that fits
 * earliest, and of those that fit at one place the first. Captures of one match must follow one another.
 */
export function tokenise({ patterns }: Grammar, line: string): Scoped[] {
  const rules = patterns.map((rule) => ({ rule, pattern: new RegExp(rule.match, 'dgu') }));
  const found: Scoped[] = [];
  let at = 0;
  while (at < line.length) {
    let best: { readonly rule: Rule; readonly match: RegExpExecArray } | undefined;
    for (const { rule, pattern } of rules) {
      pattern.lastIndex = at;
      const match = pattern.exec(line);
      if (match && (!best || match.index < best.match.index)) best = { rule, match };
    }
    if (!best || best.match[0] === '') break;
    found.push(...scopesOf(best.rule, best.match));
    at = best.match.index + best.match[0].length;
  }
  return found;
}

function scopesOf({ name, captures }: Rule, match: RegExpExecArray): Scoped[] {
  if (name !== undefined) return [{ text: match[0], scope: name }];
  return Object.entries(captures ?? {})
    .filter(([group]) => match[Number(group)] !== undefined)
    .map(([group, { name: scope }]) => ({ text: match[Number(group)], scope }));
}

import type { Warning } from '../result/result.ts';

/** A warning about one run or channel. */
export interface RunWarning extends Warning {
  /** What it is about, as its message calls it. */
  readonly of: string;
  /** What else must be the same for two warnings of one code to be told as one. */
  readonly alike?: string;
}

/** Warnings that differ only in what they are about, told once: the first in full, and which others it goes for. */
export function together(found: readonly RunWarning[]): Warning[] {
  const groups = new Map<string, RunWarning[]>();
  for (const one of found) {
    const key = `${one.code} ${one.alike ?? ''}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].map(([first, ...rest]) => {
    const others = [...new Set(rest.map(({ of }) => of))].filter((of) => of !== first.of);
    const too = others.length === 0 ? '' : ` Much the same goes for ${listed(others)}.`;
    return { code: first.code, message: first.message + too };
  });
}

const listed = (names: readonly string[]): string =>
  names.length === 1 ? names[0] : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;

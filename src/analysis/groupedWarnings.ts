import { rangeOf } from '../readers/messages/figures.ts';
import { grouped } from '../numbers/grouped.ts';
import type { Warning } from '../result/result.ts';
import { findingCodeOf } from './recordings/faults.ts';
import { alsoOf } from './together.ts';

/**
 * The warnings as they are read line by line: what was found of several runs and differs in its figures alone is told
 * of the first in full, with the names of the others and the range of the figure that it turns on.
 * @param apart up to so many of a kind stand by themselves
 */
export function inFewLines(warnings: readonly Warning[], apart = 1): Warning[] {
  const groups = grouped(warnings, ({ concerns, code, facts }, at) =>
    concerns === undefined ? at : `${code} ${wordsIn(facts)}`,
  );
  return groups.flatMap(([first, ...rest]) => {
    if (rest.length < apart) return [first, ...rest];
    const others = [...new Set(rest.flatMap(({ concerns }) => concerns?.run ?? []))];
    const range = others.length === 0 ? undefined : rangeOf(findingCodeOf(first), rest);
    return { ...first, message: `${first.message}${alsoOf(others, range)}` };
  });
}

/** What facts hold besides figures, and besides the name of the run. */
const wordsIn = (facts: object): string =>
  JSON.stringify(Object.entries(facts).filter(([name, fact]) => name !== 'of' && typeof fact !== 'number'));

import type { ComparisonValue } from '../../values/comparison.ts';
import type { Part } from '../output.ts';
import { followedLines } from '../words/plan.ts';

/** How a comparison stands to the plan it was asked to follow, and what forbids a verdict by it. */
export function planPart(value: ComparisonValue): Part | undefined {
  const lines = followedLines(value);
  return lines.length === 0 ? undefined : { type: 'text', style: 'aside', text: lines.join('\n') };
}

import type { ComparisonValue } from '../../values/comparison.ts';
import { sentence } from '../names.ts';
import type { Part } from '../output.ts';

/** How a comparison stands to the plan it was asked to follow, and what forbids a verdict by it. */
export function planPart({ plan, guards = [], includesExcluded }: ComparisonValue): Part | undefined {
  const lines: string[] = [];
  if (plan !== undefined) {
    lines.push(`Plan ${plan.name} (SHA-256 ${plan.hash.slice(0, 12)}…): ${plan.question}`);
    if (plan.deviations.length === 0) lines.push('As written here, it was followed in every point that it settles.');
    else lines.push('Not as planned:', ...plan.deviations.map(({ message }) => `– ${sentence(message)}`));
  }
  if (includesExcluded === true) lines.push('Runs that the run sheet leaves out are taken in here all the same.');
  const reasons = guards.map(({ message }) => message);
  if (reasons.length > 0) lines.push(`No verdict may rest on this, because ${reasons.join('; ')}.`);
  return lines.length === 0 ? undefined : { type: 'text', style: 'aside', text: lines.join('\n') };
}

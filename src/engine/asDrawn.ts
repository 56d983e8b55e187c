import { drawnRuns } from '../charts/drawnRuns.ts';
import type { Checked } from '../language/checked.ts';
import { isRunAway, type Wanted } from '../values/away.ts';
import type { Value } from '../values/value.ts';
import type { Evaluated } from './evaluation.ts';

/**
 * A value with the samples that its charts draw: those that are away are read again, of the recordings that are drawn alone.
 * @param evaluate makes it again with the samples that are wanted
 */
export async function asDrawn(
  value: Value,
  expression: Checked,
  evaluate: (expression: Checked, samples: Wanted) => Promise<Evaluated<Value>>,
): Promise<Evaluated<Value>> {
  const away = drawnRuns(value).filter(isRunAway);
  if (away.length === 0) return { ok: true, value };
  const found = await evaluate(expression, new Set(away.map(({ file }) => file.path)));
  // What is made of several files bears the name of one.
  return found.ok && drawnRuns(found.value).some(isRunAway) ? evaluate(expression, 'all') : found;
}

import type { Facts } from '../language/services/outside.ts';
import type { Known } from '../values/description.ts';
import { descriptionOf } from '../values/kinds.ts';
import type { Value } from '../values/value.ts';

export interface NameFacts extends Facts, Pick<Known, 'headers'> {}

/** A value in short, for a hover and for what can be checked against it before anything runs. */
export function factsOf(value: Value): NameFacts {
  const { summary, known } = descriptionOf(value);
  return { kind: value.kind, summary: summary(value), ...known?.(value) };
}

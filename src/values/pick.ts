import { grouped } from '../numbers/grouped.ts';
import { success, type Result } from '../result/result.ts';
import { descriptionOf, handsOnExcluded } from './kinds.ts';
import { refuse } from './messages.ts';
import type { Value } from './value.ts';

/** One run of a set, counted from 1; of a comparison, one band; of peaks, one peak. */
export function pickOf(value: Value, index: number): Result<Value> {
  const { rows } = descriptionOf(value);
  if (rows?.pick === undefined) return refuse('pick.kind', { kind: value.kind });
  const { keep, together } = rows.pick;
  const choices = grouped(rows.of(value), (row, at) => together?.(row, value) ?? at);
  if (index < 1 || index > choices.length) return refuse('pick.outside', { index, count: choices.length });
  return success(withoutExcluded(keep(value, choices[index - 1])));
}

/** What a run sheet leaves out of a set says nothing of one run. */
function withoutExcluded(value: Value): Value {
  if (!handsOnExcluded(value)) return value;
  const { excluded: _left, ...rest } = value;
  return rest;
}

import { success, type Result } from '../result/result.ts';
import type { Unit } from '../units/unit.ts';
import { isDrawable, descriptionOf, kinds, runsOf } from './kinds.ts';
import { refuse } from './messages.ts';
import type { Kind, Value } from './value.ts';

/** Whether values of a kind have figures in a unit of their own, that can be told in another. */
export const hasUnits = (kind: Kind): boolean =>
  kind === 'quantity' || kind === 'chart' || kinds[kind].inUnit !== undefined;

/**
 * A value in a unit that is asked for: every figure that measures what the unit does, and densities of such in its square.
 * Refused where nothing of it does; quantities have arithmetic of their own.
 */
export function inUnit(value: Value, unit: Unit): Result<Value> {
  const found = converted(value, unit);
  return found === undefined
    ? refuse('unit.other', { kind: descriptionOf(value).words, units: unitsOf(value), unit })
    : success(found);
}

function converted(value: Value, unit: Unit): Value | undefined {
  if (value.kind !== 'chart') return descriptionOf(value).inUnit?.(value, unit);
  const subjects = value.subjects.map(({ name, value: subject }) => {
    const found = converted(subject, unit);
    return found === undefined || !isDrawable(found) ? undefined : { name, value: found };
  });
  if (subjects.every((one) => one === undefined)) return undefined;
  return { ...value, subjects: value.subjects.map((subject, at) => subjects[at] ?? subject) };
}

/** The units that stand in a value, each once. */
function unitsOf(value: Value): readonly string[] {
  const { rows } = descriptionOf(value);
  const own = rows?.unit === undefined ? [] : rows.of(value).map((row) => rows.unit!(row, value).symbol);
  const behind = runsOf(value).flatMap(({ channels }) => channels.map(({ unit }) => unit.symbol));
  return [...new Set(own.length > 0 ? own : behind)].filter((symbol) => symbol !== '');
}

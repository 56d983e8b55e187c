import { excludedJson } from './excluded.ts';
import type { Json } from './jsonNumbers.ts';
import { descriptionOf, handsOnExcluded } from './kinds.ts';
import { firstUnit, rowJson, rowsJson } from './rows.ts';
import type { Value } from './value.ts';

export type { Json } from './jsonNumbers.ts';

/** A value as `run --json` gives it: numbers in SI-named keys, or in the data's own unit where `unit` says so. */
export function toJson(value: Value): Json {
  const json = descriptionOf(value).json ?? columnsJson;
  const excluded = handsOnExcluded(value) ? value.excluded : undefined;
  return { ...json(value), ...(excluded === undefined ? {} : { excluded: excludedJson(excluded) }) };
}

function columnsJson(value: Value): { readonly [key: string]: Json } {
  const { whole, jsonFirst, rows, after = [] } = descriptionOf(value);
  return {
    ...(rows === undefined ? {} : firstUnit(rows, value)),
    ...Object.fromEntries(rowJson(whole, value, value, jsonFirst)),
    ...(rows === undefined ? {} : { [rows.key]: rowsJson(rows, value) }),
    ...Object.fromEntries(rowJson(after, value, value)),
  };
}

import type { RunReport, StatementResult } from '../../src/engine/result.ts';
import type { Value } from '../../src/values/value.ts';

/** A statement that gave a value. */
export const gave = (value: Value, rest: Partial<StatementResult> = {}): StatementResult => ({
  cell: 0,
  line: 1,
  name: undefined,
  called: rest.name ?? 'statement',
  kind: value.kind,
  value,
  warnings: [],
  error: undefined,
  cached: false,
  shown: true,
  ...rest,
});

export const reportOf = (...results: readonly StatementResult[]): RunReport => ({
  ok: true,
  cancelled: false,
  results,
  sources: [],
  keys: new Map(),
});

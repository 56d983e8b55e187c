import type { Value } from './value.ts';
import { refuse, success, type Result } from '../result/result.ts';

/** One run of a set, counted from 1; of a comparison, one band; of peaks, one peak. */
export function pickOf(value: Value, index: number): Result<Value> {
  const count = countOf(value);
  if (count === undefined)
    return refuse(
      'pick.kind',
      `Only a set of runs, or what was made from one, can be picked from; this is of the kind ${value.kind}.`,
    );
  if (index < 1 || index > count) {
    return refuse(
      'pick.outside',
      `There ${count === 1 ? 'is only 1' : `are only ${count}`} to pick from, counted from 1, so [${index}] picks nothing.`,
    );
  }
  return success(withoutExcluded(picked(value, index - 1)));
}

/** What a run sheet leaves out of a set says nothing of one run. */
function withoutExcluded(value: Value): Value {
  if (!('excluded' in value)) return value;
  const { excluded: _left, ...rest } = value;
  return rest as Value;
}

function runsIn(rows: readonly { readonly run: { readonly label: string } }[]): string[] {
  return [...new Set(rows.map(({ run }) => run.label))];
}

function countOf(value: Value): number | undefined {
  switch (value.kind) {
    case 'runs':
      return value.runs.length;
    case 'spectrum':
      return runsIn(value.entries).length;
    case 'levels':
    case 'bands':
      return runsIn(value.rows).length;
    case 'spectrogram':
    case 'running':
    case 'transfer':
      return runsIn(value.entries).length;
    case 'comparison':
    case 'peaks':
      return value.rows.length;
    default:
      return undefined;
  }
}

function picked(value: Value, index: number): Value {
  const of = <T extends { readonly run: { readonly label: string } }>(rows: readonly T[]): T[] => {
    const label = runsIn(rows)[index];
    return rows.filter(({ run }) => run.label === label);
  };
  switch (value.kind) {
    case 'runs':
      return { ...value, set: undefined, runs: [value.runs[index]] };
    case 'spectrum':
      return { ...value, set: undefined, entries: of(value.entries), means: [] };
    case 'spectrogram':
      return { ...value, set: undefined, entries: of(value.entries) };
    case 'running':
      return { ...value, set: undefined, entries: of(value.entries) };
    case 'transfer':
      return { ...value, set: undefined, entries: of(value.entries) };
    case 'peaks':
      return { ...value, rows: [value.rows[index]] };
    case 'levels': {
      const { exposure, ...rest } = value;
      const rows = of(value.rows);
      if (exposure === undefined) return { ...rest, rows };
      return { ...rest, rows, exposure: { ...exposure, rows: exposure.rows.filter(({ run }) => run === rows[0].run) } };
    }
    case 'bands':
      return { ...value, rows: of(value.rows) };
    case 'comparison':
      return { ...value, rows: [value.rows[index]] };
    default:
      return value;
  }
}

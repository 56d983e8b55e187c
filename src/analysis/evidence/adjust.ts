import { success, type Result } from '../../result/result.ts';
import type { StatedPower } from '../../statistics/comparison.ts';
import { formatNumber } from '../../units/format.ts';
import { parseUnit } from '../../units/parse.ts';
import type { Run } from '../../values/run.ts';
import { refuse } from '../messages/evidence.ts';
import { bareHeader, unitOfHeader } from '../../values/sheetColumns.ts';
import { figureOf, isTemperature } from './conditions.ts';
import type { Adjustment } from './request.ts';
import { comparedIn, measuredIn, type Sides } from './sides.ts';
import { expOf } from '../../numbers/exponential.ts';
import { logOf } from '../../numbers/logarithm.ts';

/** What levels are adjusted by: one list of values, one a run of all sides, for each covariate. */
export interface Adjusted {
  /** Factors that bring each run's level to one value of every covariate whose power is stated. */
  readonly factors: readonly number[];
  readonly stated: readonly (StatedPower & Adjustment & { readonly exponent: number })[];
  /** Columns whose slope is fitted: logarithms, of temperatures the values themselves. */
  readonly fitted: readonly (readonly number[])[];
  readonly asked: readonly Adjustment[];
}

/**
 * The covariates of all runs, from the run sheet and in one unit. Refused where a run has no figure, one that has no
 * logarithm, or a unit that is not known among several; and where a slope is to be fitted that the plan does not name, or
 * over ranges that do not overlap, which would be a guess.
 *
 * @param asked the covariates, each with its power or to be fitted
 * @param planned columns whose adjustment the plan names
 */
export function adjustedBy(sides: Sides, asked: readonly Adjustment[], planned: readonly string[]): Result<Adjusted> {
  const runs = measuredIn(sides).flatMap(({ tracks }) => tracks.map(({ run }) => run));
  const stated: Adjusted['stated'][number][] = [];
  const fitted: (readonly number[])[] = [];
  for (const one of asked) {
    const column = one.column.toLowerCase();
    const values = valuesOf(runs, column);
    if (!values.ok) return values;
    if (one.exponent !== undefined) {
      const logarithms = values.value.map(logOf);
      stated.push({ ...one, exponent: one.exponent, logarithms, uncertainty: one.uncertainty ?? 0 });
      continue;
    }
    if (!planned.some((name) => name.toLowerCase() === column)) return refuse('adjust.unplanned', { column }, 'adjust');
    const apart = whichApart(sides, values.value);
    if (apart !== undefined) return refuse('adjust.apart', { column, ...apart }, 'adjust');
    fitted.push(centred(isTemperature(column) ? values.value : values.value.map(logOf)));
  }
  const about = stated.map(({ exponent, logarithms }) => ({ exponent, values: centred(logarithms) }));
  const factors = runs.map((_, k) =>
    expOf(0 - about.reduce((sum, { exponent, values }) => sum + exponent * values[k], 0)),
  );
  return success({ factors, stated, fitted, asked });
}

function centred(values: readonly number[]): number[] {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.map((value) => value - mean);
}

function valuesOf(runs: readonly Run[], column: string): Result<readonly number[]> {
  const units = [...new Set(runs.map((run) => unitIn(run, column)))];
  const unknown = units.find((unit) => !isTemperature(column) && !parseUnit(unit).ok);
  if (units.length > 1 && unknown !== undefined) return refuse('adjust.unit', { column, units }, 'adjust');
  const values: number[] = [];
  for (const run of runs) {
    const value = figureOf(run, column);
    if (value === undefined || (!isTemperature(column) && !(value > 0))) {
      const found = value === undefined ? undefined : formatNumber(value, 4);
      return refuse('adjust.figure', { column, run: run.label, found }, 'adjust');
    }
    values.push(value);
  }
  return success(values);
}

function unitIn({ sheet }: Run, column: string): string {
  const header = Object.keys(sheet?.facts ?? {}).find((one) => bareHeader(one) === column);
  return header === undefined ? '' : unitOfHeader(header);
}

/** The first condition whose values do not overlap the baseline's. */
function whichApart(sides: Sides, values: readonly number[]): { readonly a: string; readonly b: string } | undefined {
  let at = 0;
  const ranges = comparedIn(sides).map(({ name, tracks }) => {
    const own = values.slice(at, (at += tracks.length));
    return { name, from: Math.min(...own), to: Math.max(...own) };
  });
  const [baseline, ...others] = ranges;
  const apart = others.find(({ from, to }) => from > baseline.to || to < baseline.from);
  return apart && { a: baseline.name, b: apart.name };
}

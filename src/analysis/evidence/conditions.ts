import { sheetNumber } from '../../readers/sheet.ts';
import type { Covariate } from '../../statistics/covariate.ts';
import { dimensionOf, sameDimension } from '../../units/dimension.ts';
import { parseUnit } from '../../units/parse.ts';
import type { Run } from '../../values/run.ts';
import { bareHeader, unitOfHeader } from '../../values/sheetColumns.ts';
import type { Side, Sides } from './sides.ts';

/** A figure of the run sheet that every run of both sides has: in SI where its unit is known, in the sheet's else. */
export interface Condition extends Covariate {
  /** The column's header without its unit, in lower case: `speed`, `tyre pressure`. */
  readonly column: string;
  /** As the header has it: `m/s`; empty where it has none. */
  readonly unit: string;
  readonly isSpeed: boolean;
  /** What a figure in the sheet's unit is multiplied by. */
  readonly factor: number;
}

/** Columns that say under what conditions a run was made. */
export const conditionColumns = /^(speed|mass|load|pressure.*|.* pressure)$/;

/**
 * The speeds, mass, load and pressures of the run sheet, where every run of both sides has a figure above 0. What is in a unit of
 * speed or of turning is a speed, whatever it is called: a pace in km/h, a cadence in rpm; the wind's is none of the run's.
 */
export function conditionsOf({ a, b }: Sides): Condition[] {
  const headers = Object.keys(a.tracks[0].run.sheet?.facts ?? {}).filter(
    (header) => conditionColumns.test(bareHeader(header)) || isSpeed(header),
  );
  return headers.flatMap((header) => {
    const column = bareHeader(header);
    const [figuresA, figuresB] = [a, b].map((side) => figuresOf(side, column));
    if (figuresA === undefined || figuresB === undefined) return [];
    const unit = unitOfHeader(header);
    return [{ column, unit, isSpeed: isSpeed(header), factor: factorOf(unit), a: figuresA, b: figuresB }];
  });
}

const windColumns = /\b(wind|gusts?)\b/;

function isSpeed(header: string): boolean {
  const column = bareHeader(header);
  if (column === 'speed') return true;
  const unit = unitOfHeader(header);
  const parsed = parseUnit(unit);
  // What is in Hz may be the logger's rate or a filter's corner.
  if (!parsed.ok || windColumns.test(column) || /Hz\b/.test(unit)) return false;
  const { dimension } = parsed.unit;
  return (['speed', 'frequency', 'angular velocity'] as const).some((name) =>
    sameDimension(dimension, dimensionOf(name)),
  );
}

function figuresOf({ tracks }: Side, column: string): number[] | undefined {
  const figures = figuresOfAll(tracks, (run) => figureOf(run, column));
  return figures?.every((value) => value > 0) === true ? figures : undefined;
}

/** What is read of each run of a side; undefined unless each has it. */
export function figuresOfAll(tracks: Side['tracks'], read: (run: Run) => number | undefined): number[] | undefined {
  const figures = tracks.flatMap(({ run }) => read(run) ?? []);
  return figures.length === tracks.length ? figures : undefined;
}

/**
 * A run's figure under a column, in SI where its header's unit is known (temperatures in °C); undefined without one.
 *
 * @param column without its unit, in lower case
 */
export function figureOf({ sheet }: Run, column: string): number | undefined {
  const header = Object.keys(sheet?.facts ?? {}).find((one) => bareHeader(one) === column);
  if (header === undefined) return undefined;
  const value = sheetNumber(sheet?.facts[header] ?? '');
  if (value === undefined) return undefined;
  const unit = unitOfHeader(header);
  return isTemperature(column) ? celsius(value, unit) : value * factorOf(unit);
}

/** Whether a column is of temperatures, whose scales differ by more than a factor. */
export const isTemperature = (column: string): boolean => /\btemp(erature)?\b/.test(column);

function celsius(value: number, unit: string): number {
  if (/^°?F$/.test(unit)) return (value - 32) / 1.8;
  return unit === 'K' ? value - 273.15 : value;
}

function factorOf(unit: string): number {
  const parsed = parseUnit(unit);
  return parsed.ok ? parsed.unit.factor : 1;
}

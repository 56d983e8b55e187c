import { sheetNumber } from '../../readers/sheet.ts';
import { dimensionOf, sameDimension } from '../../units/dimension.ts';
import { express } from '../../units/express.ts';
import { parseUnit, unit as unitNamed } from '../../units/parse.ts';
import type { Run } from '../../values/run.ts';
import { bareHeader, unitOfHeader } from '../../values/sheetColumns.ts';

/** A run's turning rate in Hz, or its speed in m/s, by the run sheet. */
export interface RunSpeed {
  readonly rate: number;
  /** Whether it is a speed along a way, which makes cycles per metre. */
  readonly isOfWay: boolean;
}

/** What the sheet has where a speed should stand: no cell, or one that is no figure above 0 in such a unit. */
export interface NoSpeed {
  readonly run: string;
  readonly column: string;
  readonly cell: string | undefined;
  readonly unit: string;
}

/** @param column without its unit */
export function speedOf({ label, sheet }: Run, column: string): RunSpeed | NoSpeed {
  const header = Object.keys(sheet?.facts ?? {}).find((one) => bareHeader(one) === column.toLowerCase());
  const cell = header === undefined ? undefined : sheet?.facts[header].trim();
  const symbol = header === undefined ? '' : unitOfHeader(header);
  const none = { run: label, column, cell, unit: symbol };
  const value = sheetNumber(cell ?? '');
  const parsed = parseUnit(symbol);
  if (value === undefined || !(value > 0) || symbol === '' || !parsed.ok) return none;
  const { unit } = parsed;
  if (sameDimension(unit.dimension, dimensionOf('speed'))) return { rate: value * unit.factor, isOfWay: true };
  const rate = express({ value, unit }, unitNamed('Hz'))?.value;
  return rate === undefined ? none : { rate, isOfWay: false };
}

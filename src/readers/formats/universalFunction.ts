import { success, type Refused, type Result } from '../../result/result.ts';
import { limits } from '../limits.ts';
import { refuse } from '../messages.ts';
import type { UniversalFault } from '../messages/file.ts';
import { timeScale } from '../timeNames.ts';

// Records 1 to 11 of a function of dataset 58, by the columns of its published description.

/** Lines of a dataset 58 before its values: its number, and records 1 to 11. */
export const headerLines = 12;

/** What records 6 to 11 say of a time response. */
export interface FunctionHeader {
  /** Line of the dataset's number. */
  readonly line: number;
  readonly title: string;
  /** Name of the response's part, or nothing. */
  readonly entity: string;
  readonly node: number;
  /** 1 to 3 along x, y, z, 4 to 6 about them, negative the other way; 0 for none. */
  readonly direction: number;
  readonly isDouble: boolean;
  readonly count: number;
  readonly isEven: boolean;
  /** First time and step in s; the step is of even spacing. */
  readonly first: number;
  readonly step: number;
  /** s of one unit of the abscissa. */
  readonly scale: number;
  /** The unit of the values as the file spells it, or undefined. */
  readonly unit: string | undefined;
  /** Whether the values are accelerations by their data type. */
  readonly isAcceleration: boolean;
}

/** Data types of an axis (records 8 to 11). */
const [acceleration, time] = [12, 17];

/** The header of a time response, or undefined of another function (a spectrum, say). Refuses what can't be read. */
export function functionHeader(
  path: string,
  lines: readonly string[],
  line: number,
): Result<FunctionHeader | undefined> {
  const bad = (record: number, fault: UniversalFault): Refused =>
    refuse('universal-format', { path, line: line + record, fault });
  if (lines.length < headerLines) return bad(0, { kind: 'header', lines: lines.length });
  const kind = Number(lines[6].slice(0, 5));
  const [type, count, spacing, first, step] = fieldsOf(lines[7], [10, 10, 10, 13, 13]);
  const [abscissa, ordinate, denominator] = [8, 9, 10].map((record) => axisOf(lines[record]));
  if (!(kind === 1 || (kind === 0 && abscissa.type === time))) return success(undefined);
  if (type !== 2 && type !== 4) return bad(7, { kind: 'data type', type });
  if (spacing !== 0 && spacing !== 1) return bad(7, { kind: 'spacing' });
  const scale = abscissa.unit === undefined ? 1 : timeScale(abscissa.unit);
  if (scale === undefined || abscissa.exponents.some((one) => one !== 0))
    return bad(8, { kind: 'abscissa', unit: abscissa.unit ?? '', exponents: abscissa.exponents });
  if (spacing === 1 && !(step > 0)) return bad(7, { kind: 'step', step });
  if (!Number.isInteger(count) || count < 2 || count > limits.samples) return bad(7, { kind: 'count', count });
  const per = denominator.unit === undefined ? '' : `/(${denominator.unit})`;
  return success({
    line,
    title: lines[1].trim(),
    ...responseAt(lines[6]),
    isDouble: type === 4,
    count,
    isEven: spacing === 1,
    first: first * scale,
    step: step * scale,
    scale,
    unit: ordinate.unit === undefined ? undefined : ordinate.unit + per,
    isAcceleration: ordinate.type === acceleration && per === '',
  });
}

interface AxisRecord {
  readonly type: number;
  /** Of length, force and temperature. */
  readonly exponents: readonly number[];
  readonly unit: string | undefined;
}

/** An axis by the columns of its record, I10, 3I5, 2(1X, 20A1); where a text is shorter, by its words. */
function axisOf(record: string): AxisRecord {
  const unit = record.slice(47, 67).trim() || record.trim().split(/\s+/).slice(5).join(' ');
  return {
    type: Number(record.slice(0, 10)),
    exponents: [10, 15, 20].map((at) => Number(record.slice(at, at + 5)) || 0),
    unit: /^(none|-*)?$/i.test(unit) ? undefined : unit,
  };
}

/** Response entity, node and direction of record 6, by its columns: 2(I5, I10), 2(1X, 10A1, I10, I4). */
function responseAt(identity: string): Pick<FunctionHeader, 'node' | 'entity' | 'direction'> {
  const entity = identity.slice(31, 41).trim();
  return {
    entity: /^none$/i.test(entity) ? '' : entity,
    node: Number(identity.slice(41, 51)) || 0,
    direction: Number(identity.slice(51, 55)) || 0,
  };
}

/** A number as Fortran writes it: D for E, and neither before an exponent of three digits. */
const number = /[-+]?(?:\d+\.?\d*|\.\d+)(?:[EeDd][-+]?\d+|[-+]\d{3}(?![\d.]))?/g;

const valueOf = (text: string): number => Number(text.replace(/[Dd]/, 'e').replace(/([\d.])([-+]\d{3})$/, '$1e$2'));

/** The numbers of a line, which may touch. */
export function numbersOf(line: string): number[] {
  return (line.match(number) ?? []).map(valueOf);
}

/** Numbers that stand in columns of their own; where they don't, as they come. */
function fieldsOf(line: string, widths: readonly number[]): number[] {
  let at = 0;
  const texts = widths.map((width) => line.slice(at, (at += width)).trim());
  const isNumber = (text: string): boolean => text.match(number)?.[0] === text;
  return texts.every(isNumber) ? texts.map(valueOf) : numbersOf(line);
}

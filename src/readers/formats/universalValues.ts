import { success, type Result } from '../../result/result.ts';
import { refuse } from '../messages.ts';
import { numbersOf, type FunctionHeader } from './universalFunction.ts';

/** The values of a function of dataset 58. */
export interface FunctionValues {
  readonly values: Float64Array;
  /** The abscissa of each value in s, where it is uneven. */
  readonly times: Float64Array | undefined;
  /** Digits that the abscissa holds, of its largest number. */
  readonly digits: number;
}

/**
 * Values in lines of numbers: of uneven spacing each stands behind its place on the abscissa. Refuses too few, and more
 * than the header states.
 */
export function valuesInText(path: string, of: FunctionHeader, lines: readonly string[]): Result<FunctionValues> {
  const { count, isEven, scale } = of;
  const width = isEven ? 1 : 2;
  const numbers = lines.flatMap(numbersOf);
  // Some fill the last line up.
  const before = numbers.length - numbersOf(lines.at(-1) ?? '').length;
  if (numbers.length < width * count || before >= width * count)
    return otherCount(path, of, Math.floor(numbers.length / width));
  return success({
    values: Float64Array.from({ length: count }, (_, i) => numbers[width * i + width - 1]),
    times: isEven ? undefined : Float64Array.from({ length: count }, (_, i) => numbers[2 * i] * scale),
    digits: 6,
  });
}

/** What the first line of a dataset 58b says of its bytes (I6, A1, 2I6, 2I12, 4I…). */
export interface BinaryForm {
  readonly isLittle: boolean;
  /** Bytes of the values, or 0 where they are not stated. */
  readonly bytes: number;
}

/** The form of a dataset 58b by its first line; refuses numbers that are none of IEEE 754. */
export function binaryForm(path: string, text: string, line: number): Result<BinaryForm> {
  const [order, format, , bytes] = text
    .replace(/^\s*58b/i, '')
    .trim()
    .split(/\s+/)
    .map(Number);
  if (format !== 2 || (order !== 1 && order !== 2)) return refuse('universal-binary', { path, line, format });
  return success({ isLittle: order === 1, bytes: Number.isInteger(bytes) && bytes > 0 ? bytes : 0 });
}

/** Bytes of each value, and of its place on the abscissa before it: of uneven spacing real numbers of 4 bytes. */
export function sizesOf({ isDouble, isEven, count }: FunctionHeader, { bytes }: BinaryForm): readonly [number, number] {
  const own = isDouble ? 8 : 4;
  if (isEven) return [own, 0];
  // Some write the abscissa as finely as the values.
  return [own, bytes === 16 * count && isDouble ? 8 : 4];
}

/** Values as bytes. Refuses too few. */
export function valuesInBytes(
  path: string,
  of: FunctionHeader,
  bytes: Uint8Array,
  form: BinaryForm,
): Result<FunctionValues> {
  const { count, isEven, scale } = of;
  const [own, before] = sizesOf(of, form);
  const frame = own + before;
  if (bytes.length < frame * count) return otherCount(path, of, Math.floor(bytes.length / frame));
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const at = (place: number, size: number): number => {
    const value = size === 8 ? view.getFloat64(place, form.isLittle) : view.getFloat32(place, form.isLittle);
    return Number.isFinite(value) ? value : NaN;
  };
  return success({
    values: Float64Array.from({ length: count }, (_, i) => at(frame * i + before, own)),
    times: isEven ? undefined : Float64Array.from({ length: count }, (_, i) => at(frame * i, before) * scale),
    digits: before === 8 ? 15 : 7,
  });
}

const otherCount = (path: string, { line, count }: FunctionHeader, values: number): ReturnType<typeof refuse> =>
  refuse('universal-format', { path, line: line + 12, fault: { kind: 'values', values, count } });

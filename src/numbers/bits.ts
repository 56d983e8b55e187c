/** Lower bytes first, as all processors of today have them: the other order takes a turn each time. */
const words = new DataView(new ArrayBuffer(8));

/** The number without the lower half of its bits, so that products of two such are exact. */
export function headOf(value: number): number {
  words.setFloat64(0, value, true);
  words.setUint32(0, 0, true);
  return words.getFloat64(0, true);
}

/** The upper half of a number's bits: sign, exponent and 20 bits of the mantissa. */
export function upperOf(value: number): number {
  words.setFloat64(0, value, true);
  return words.getInt32(4, true);
}

/** The number with other upper bits. */
export function withUpper(value: number, upper: number): number {
  words.setFloat64(0, value, true);
  words.setInt32(4, upper, true);
  return words.getFloat64(0, true);
}

/** 2^n for n from -1022 to 1023. */
export const twoTo = (n: number): number => withUpper(0, (n + 1023) << 20);

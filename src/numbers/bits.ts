const words = new DataView(new ArrayBuffer(8));

/** The number without the lower half of its bits, so that products of two such are exact. */
export function headOf(value: number): number {
  words.setFloat64(0, value);
  words.setUint32(4, 0);
  return words.getFloat64(0);
}

/** The upper half of a number's bits: sign, exponent and 20 bits of the mantissa. */
export function upperOf(value: number): number {
  words.setFloat64(0, value);
  return words.getInt32(0);
}

/** The number with other upper bits. */
export function withUpper(value: number, upper: number): number {
  words.setFloat64(0, value);
  words.setInt32(0, upper);
  return words.getFloat64(0);
}

/** 2^n for n from -1022 to 1023. */
export const twoTo = (n: number): number => withUpper(0, (n + 1023) << 20);

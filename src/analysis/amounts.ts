import { formatNumber } from '../units/format.ts';

// How figures are written within sentences.

/** A frequency in Hz (`value`) to 4 digits, with its unit. */
export const hertz = (value: number): string => `${formatNumber(value, 4)} Hz`;
/** A time in s (`value`) to the millisecond, with its unit. */
export const seconds = (value: number): string => `${formatNumber(Number(value.toFixed(3)), 6)} s`;

/** A time in s (`value`) to the millisecond in full, however long it is. */
export const toMillisecond = (value: number): string => `${Number(value.toFixed(3))} s`;

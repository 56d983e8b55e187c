import { formatNumber } from '../units/format.ts';

// How figures are written within sentences.

export const hertz = (value: number): string => `${formatNumber(value, 4)} Hz`;
export const seconds = (value: number): string => `${formatNumber(Number(value.toFixed(3)), 6)} s`;

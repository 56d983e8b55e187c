import { changesWithin } from '../values/comparisonParts.ts';

// Percentages in sentences, with the minus sign that print has. A figure is given in percent: 12.3 for 12.3 %.

/** A percentage without its sign: one decimal below 100 %, none above; `12.3 %`. @param value in percent */
export const percentText = (value: number): string => `${figure(Math.abs(value))} %`;

/** A change, which has a sign unless it is 0: `−12.3 %`. @param value in percent */
export const signedPercentText = (value: number): string => `${signedFigure(value)} %`;

/** An interval of changes: `−27.2 to −15.3 %`. @param low, high its ends in percent */
export const intervalText = (low: number, high: number): string => `${signedFigure(low)} to ${signedFigure(high)} %`;

/** The ends of an interval of sizes, which have no sign: `57.1 to 63.1 %`. @param low, high at least 0, in percent */
export const sizesText = (low: number, high: number): string => `${figure(low)} to ${figure(high)} %`;

/** A change with one decimal whatever its size, as a verdict has it: `+120.4 %`. @param value in percent */
export const signedTenthsText = (value: number): string => `${signedTenths(value)} %`;

/** A percentage as it was stated, to four digits: `27.75 %`. @param value in percent */
export const statedPercentText = (value: number): string => `${Number(value.toPrecision(4))} %`;

/** The changes that count as none within a margin: `±5 % (−4.76 to +5 %)`, by one factor either way. @param margin a fraction */
export function marginText(margin: number): string {
  const { from, to } = changesWithin(margin);
  const low = withSign(from, String(Number(Math.abs(from).toPrecision(3))));
  return `±${statedPercentText(to)} (${low} to ${withSign(to, statedPercentText(to))})`;
}

const signedFigure = (value: number): string => withSign(value, figure(Math.abs(value)));
const signedTenths = (value: number): string => withSign(value, Math.abs(value).toFixed(1));

const withSign = (value: number, size: string): string =>
  parseFloat(size) === 0 ? size : `${value < 0 ? '−' : '+'}${size}`;

/** What is smaller is zero to any reader, and would need a power of ten. */
const leastWritten = 1e-6;

function figure(size: number): string {
  if (size >= leastWritten && size < 0.05) return String(Number(size.toPrecision(1)));
  return size < 100 ? size.toFixed(1) : String(Math.round(size));
}

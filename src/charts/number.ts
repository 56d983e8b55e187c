/** How figures are written for people: the one place. A true minus, which is read out as one; no grouping. */

/** Shown for a figure that does not exist. */
export const noFigure = '–';

/**
 * A figure to so many significant digits, trailing zeros kept, because they say how exact it is; powers of ten
 * outside 1e-4 to 1e6. Not finite or undefined: a dash.
 */
export function significant(value: number | undefined | null, digits = 4): string {
  if (value === undefined || value === null || !Number.isFinite(value)) return noFigure;
  if (value === 0) return '0';
  const exponent = decimalExponent(value, digits);
  if (exponent < -4 || exponent >= 6) return withMinus(value.toExponential(digits - 1).replace('e+', 'e'));
  return withMinus(value.toFixed(Math.max(0, digits - 1 - exponent)));
}

/** The sign in front alone: the exponent's stays as every program reads it. */
const withMinus = (text: string): string => (text.startsWith('-') ? `−${text.slice(1)}` : text);

/** As `significant`, without the zeros at the end: for settings and places (2 s, 12.5 Hz), which are exact as given. */
export function plain(value: number | undefined | null, digits = 6): string {
  const text = significant(value, digits);
  if (!text.includes('.')) return text;
  const [mantissa, exponent] = text.split('e');
  const short = mantissa.replace(/\.?0+$/, '');
  return exponent === undefined ? short : `${short}e${exponent}`;
}

/** Exponent of the leading digit after rounding to so many digits: 9.9996 to 4 digits is 10.00. */
function decimalExponent(value: number, digits: number): number {
  return Number(value.toExponential(digits - 1).split('e')[1]);
}

export interface IntervalText {
  readonly value: string;
  readonly low: string;
  readonly high: string;
}

/**
 * A figure and its interval with as many decimals as give the interval's half-width two significant digits:
 * more would pretend, fewer would hide. Without an interval, one decimal below the figure's own unit digit.
 */
export function interval(value: number, low: number | undefined, high: number | undefined): IntervalText {
  const decimals = low === undefined || high === undefined ? 1 : intervalDecimals((high - low) / 2);
  const write = (figure: number | undefined): string => (figure === undefined ? noFigure : fixed(figure, decimals));
  return { value: write(value), low: write(low), high: write(high) };
}

function intervalDecimals(halfWidth: number): number {
  if (!Number.isFinite(halfWidth) || halfWidth <= 0) return 1;
  return Math.min(6, Math.max(0, 2 - 1 - decimalExponent(halfWidth, 2)));
}

/** So many decimals, and no minus before a zero. */
export function fixed(value: number, decimals: number): string {
  if (!Number.isFinite(value)) return noFigure;
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : withMinus(text);
}

/** With its sign, as changes are written: `+3.1`, `−14.2`, `0.0`. */
export function signed(text: string): string {
  return /^[1-9]|^0.*[1-9]/.test(text) ? `+${text}` : text;
}

/** A probability to two digits; below 0.001 only that it is smaller, above 0.99 only that it is larger. */
export function probability(p: number | undefined): string {
  if (p === undefined || !Number.isFinite(p)) return noFigure;
  if (p < 0.001) return '< 0.001';
  return p > 0.99 ? '> 0.99' : p < 0.1 ? p.toPrecision(2) : p.toFixed(2);
}

/** A fraction in percent: `95 %`. */
export const percent = (fraction: number): string => `${plain(fraction * 100, 3)} %`;

/** Rounded to 5 significant digits: what is drawn need not carry more through the notebook. */
export function drawn(value: number): number | null {
  return Number.isFinite(value) ? Number(value.toPrecision(5)) : null;
}

/** Hz without needless digits, and a span of them. */
export const hertz = (value: number): string => `${plain(value, 4)} Hz`;
export const hertzSpan = (from: number, to: number): string => `${plain(from, 4)}–${plain(to, 4)} Hz`;

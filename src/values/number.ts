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
  if (exponent < -4 || exponent >= 6) return scientific(value, digits);
  return withMinus(value.toFixed(Math.max(0, digits - 1 - exponent)));
}

const withMinus = (text: string): string => text.replace('-', '−');

/** `1.234×10⁻⁵`. */
export function scientific(value: number, digits: number): string {
  const [mantissa, exponent] = value.toExponential(digits - 1).split('e');
  return `${withMinus(mantissa)}×10${raised(exponent.replace('+', ''))}`;
}

const superscripts: Readonly<Record<string, string>> = {
  '-': '⁻',
  '.': '·',
  '0': '⁰',
  '1': '¹',
  '2': '²',
  '3': '³',
  '4': '⁴',
  '5': '⁵',
  '6': '⁶',
  '7': '⁷',
  '8': '⁸',
  '9': '⁹',
};

/** A power in small raised figures: `-5` is `⁻⁵`. */
const raised = (power: string): string => [...power].map((sign) => superscripts[sign] ?? sign).join('');

/** A unit's symbol as printed: `g^2/Hz` is `g²/Hz`, `g^2*m` is `g²·m`. */
export const printedUnit = (symbol: string): string =>
  symbol.replace(/\^(-?[\d.]+)/g, (_, power: string) => raised(power)).replaceAll('*', '·');

/**
 * The figures of one column with equally many decimals, so that they can be compared down the column: as many as give
 * the largest the wanted digits. Where that would leave the smallest fewer than three (two of three), each goes by its own.
 */
export function aligned(values: readonly (number | undefined | null)[], digits = 4): string[] {
  const sizes = values.flatMap((value) =>
    value !== undefined && value !== null && value !== 0 ? [Math.abs(value)] : [],
  );
  const known = sizes.filter(Number.isFinite);
  if (known.length === 0) return values.map((value) => significant(value, digits));
  const exponents = known.map((size) => decimalExponent(size, digits));
  const [least, most] = [Math.min(...exponents), Math.max(...exponents)];
  if (most - least > digits - Math.min(3, digits - 1) || least < -4 || most >= 6)
    return values.map((value) => significant(value, digits));
  const decimals = Math.max(0, digits - 1 - most);
  return values.map((value) =>
    value === undefined || value === null ? noFigure : value === 0 ? '0' : fixed(value, decimals),
  );
}

/** As `significant`, without the zeros at the end: for settings and places (2 s, 12.5 Hz), which are exact as given. */
export function plain(value: number | undefined | null, digits = 6): string {
  const text = significant(value, digits);
  if (!text.includes('.')) return text;
  const [mantissa, ...exponent] = text.split('×');
  return [mantissa.replace(/\.?0+$/, ''), ...exponent].join('×');
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
 * A figure and its interval with as many decimals as give the interval's half-width two significant digits, and one
 * at least, as in sentences: more would pretend, fewer would hide on which side of zero a limit lies. One that would read
 * as zero has its first digit.
 */
export function interval(value: number, low: number | undefined, high: number | undefined): IntervalText {
  const decimals = low === undefined || high === undefined ? 1 : intervalDecimals((high - low) / 2);
  const write = (figure: number | undefined): string => (figure === undefined ? noFigure : sided(figure, decimals));
  return { value: write(value), low: write(low), high: write(high) };
}

function intervalDecimals(halfWidth: number): number {
  if (!Number.isFinite(halfWidth) || halfWidth <= 0) return 1;
  return Math.min(6, Math.max(1, 2 - 1 - decimalExponent(halfWidth, 2)));
}

function sided(value: number, decimals: number): string {
  const text = fixed(value, decimals);
  return Number(text) === 0 && Math.abs(value) >= leastWritten ? withMinus(String(Number(value.toPrecision(1)))) : text;
}

/** What is smaller is zero to any reader, and would need a power of ten. */
const leastWritten = 1e-6;

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

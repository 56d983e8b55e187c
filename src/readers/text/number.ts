const point = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const comma = /^[+-]?(?:\d+,?\d*|,\d+)(?:[eE][+-]?\d+)?$/;

export type DecimalMark = '.' | ',';

/**
 * The number that a cell spells, by a strict grammar (no hexadecimal), else undefined. Thousands may be parted only
 * where a fraction follows, or where the mark between them could be no decimal mark.
 */
export function parseNumber(text: string, decimal: DecimalMark): number | undefined {
  const cell = text.trim();
  const plain = shape(decimal).test(cell) ? cell : respelled(cell, decimal);
  if (plain === undefined) return undefined;
  const value = Number(plain.replace(',', '.'));
  // A number too large for a double is no reading.
  return Number.isFinite(value) ? value : undefined;
}

const shape = (decimal: DecimalMark): RegExp => (decimal === '.' ? point : comma);

const grouped = {
  '.': /^[+-]?\d{1,3}(?:(?:,\d{3})+\.\d+|(?:['’\u00a0\u202f ]\d{3})+(?:\.\d+)?)$/,
  ',': /^[+-]?\d{1,3}(?:(?:\.\d{3})+,\d+|(?:['’\u00a0\u202f ]\d{3})+(?:,\d+)?)$/,
} as const;

/** A typographic minus or dash, Fortran's D for the exponent, and marks between thousands as plain digits have it. */
function respelled(cell: string, decimal: DecimalMark): string | undefined {
  if (cell.length > 40 || !/\d/.test(cell)) return undefined;
  let plain = cell
    .replace(/^[\u2212\u2013]/, '-')
    .replace(/^([-+])[ \u00a0](?=[\d.,])/, '$1')
    .replace(/[dD](?=[+-]?\d{1,3}$)/, 'e');
  if (grouped[decimal].test(plain)) plain = plain.replace(decimal === '.' ? /[^\d.+-]/g : /[^\d,+-]/g, '');
  return shape(decimal).test(plain) ? plain : undefined;
}

const overload =
  /^[+-]?(?:ol|ovl|ovld|ovr|ovf|over|over-?load(?:ed)?|over-?flow|over-?range|sat|saturated|clip|clipped)$/i;
const missing =
  /^(?:|[-+*?.#]+|-?nan|-?nan\(ind\)|na|n\/a|#n\/?a|#nv|null|nil|none|undef(?:ined)?|missing|invalid|err(?:or)?|#(?:wert|value|valeur|div\/0|num|ref|zahl)!|[+-]?\d\.#(?:inf|ind|qnan|snan)\d*|[+-]?inf(?:inity)?)$/i;

/** Whether a cell says that there is no reading. */
export function isMissing(text: string): boolean {
  const plain = text.trim();
  return missing.test(plain) || overload.test(plain);
}

/** Whether a cell says that the reading was beyond the sensor's range. */
export function isOverload(text: string): boolean {
  return overload.test(text.trim());
}

/** Digits after the decimal mark, less the exponent; 0 for a cell without a number. */
export function decimalsOf(text: string, decimal: DecimalMark): number {
  const plain = text.trim();
  if (!/^[+-]?[\d.,]/.test(plain)) return 0;
  const mark = plain.indexOf(decimal);
  const e = plain.search(/[eEdD]/);
  const digits = mark < 0 ? 0 : (e < 0 ? plain.length : e) - mark - 1;
  return digits - (e < 0 ? 0 : Number(plain.slice(e + 1)) || 0);
}

/** Whether a cell could as well be a whole number with a mark between its thousands, such as 1.234 or 12,345,678. */
export function couldBeThousands(text: string, mark: DecimalMark): boolean {
  return (mark === '.' ? /^[+-]?[1-9]\d{0,2}(?:\.\d{3})+$/ : /^[+-]?[1-9]\d{0,2}(?:,\d{3})+$/).test(text.trim());
}

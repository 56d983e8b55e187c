const point = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const comma = /^[+-]?(?:\d+,?\d*|,\d+)(?:[eE][+-]?\d+)?$/;

export type DecimalMark = '.' | ',';

/** The number that a cell spells, by a strict grammar (no thousands marks, no hexadecimal), else undefined. */
export function parseNumber(text: string, decimal: DecimalMark): number | undefined {
  const plain = text.trim();
  if (decimal === '.') return point.test(plain) ? finite(Number(plain)) : undefined;
  return comma.test(plain) ? finite(Number(plain.replace(',', '.'))) : undefined;
}

/** A number too large for a double is no reading. */
function finite(value: number): number | undefined {
  return Number.isFinite(value) ? value : undefined;
}

const missing =
  /^(?:|-|--|nan|-nan|nan\(ind\)|-nan\(ind\)|na|n\/a|#n\/a|null|none|ol|ovl|ovld|overload|overflow|[+-]?inf(?:inity)?|\?|\*+)$/i;

/** Whether a cell says that there is no reading. */
export function isMissing(text: string): boolean {
  return missing.test(text.trim());
}

/** Digits after the decimal mark, less the exponent. */
export function decimalsOf(text: string, decimal: DecimalMark): number {
  const plain = text.trim();
  const mark = plain.indexOf(decimal);
  const e = plain.search(/[eE]/);
  const digits = mark < 0 ? 0 : (e < 0 ? plain.length : e) - mark - 1;
  return digits - (e < 0 ? 0 : Number(plain.slice(e + 1)));
}

/** Whether a cell could as well be a whole number with a mark between its thousands, such as 1.234 or 12,345,678. */
export function couldBeThousands(text: string, mark: DecimalMark): boolean {
  return (mark === '.' ? /^[+-]?[1-9]\d{0,2}(?:\.\d{3})+$/ : /^[+-]?[1-9]\d{0,2}(?:,\d{3})+$/).test(text.trim());
}

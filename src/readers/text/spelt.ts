/** Spellings of a date and clock that only words or the count of digits tell, and the plain spelling of the same. */

const months: readonly RegExp[] = [
  /^jan/,
  /^(?:feb|f[eé]v|feber)/,
  /^(?:mar|m[aä]r|mrz|mars)/,
  /^(?:apr|avr)/,
  /^(?:may|mai)/,
  /^(?:jun|juin)/,
  /^(?:jul|juil)/,
  /^(?:aug|ao[uû])/,
  /^sep/,
  /^(?:oct|okt)/,
  /^nov/,
  /^(?:dec|dez|d[eé]c)/,
];

const clock = String.raw`(\d{1,2}:\d{2}:\d{2}(?:[.,:]\d{1,9})?(?:\s?[AaPp]\.?[Mm]\.?)?)`;
const zone = String.raw`(?:\s?(Z|UTC|GMT|[+-]\d{2}:?\d{2}))?`;
const month = String.raw`([\p{L}]{3,9})\.?`;
const dayFirst = new RegExp(
  `^(?:\\p{L}{2,10}[,.]?\\s+)?(\\d{1,2})\\.?[-/ ]\\s?${month}[-/ ,]\\s?(\\d{4})[,T ]?\\s*${clock}${zone}$`,
  'u',
);
const monthFirst = new RegExp(
  `^(?:\\p{L}{2,10}[,.]?\\s+)?${month}\\s+(\\d{1,2}),?\\s+(\\d{4}),?\\s+${clock}${zone}$`,
  'u',
);
const yearLast = new RegExp(`^(?:\\p{L}{2,10}[,.]?\\s+)?${month}\\s+(\\d{1,2})\\s+${clock}${zone}\\s+(\\d{4})$`, 'u');
const digits =
  /^((?:19|20)\d{2})(\d{2})(\d{2})(T?)([01]\d|2[0-3])([0-5]\d)([0-5]\d)(?:[.,]?(\d{3}|\d{6})|[.,](\d{1,9}))?(Z|[+-]\d{2}:?\d{2})?$/;

/** A date with a clock of hours and minutes alone. */
const withoutSeconds =
  /^((?:\d{4}[-/.]\d{1,2}[-/.]\d{1,2}|\d{1,2}[-/.]\d{1,2}[-/.](?:\d{4}|\d{2}))(?:[T _]|,\s?)\s?\d{1,2}:\d{2})((?:\s?[AaPp]\.?[Mm]\.?)?\s?(?:Z|UTC|GMT|[+-]\d{2}:?\d{2})?)$/;

/**
 * A date with its month in words, or all in digits (`20250307142231500`), as `2025-03-07 14:22:31.500`; a date and a
 * clock without seconds at the full minute; else undefined.
 */
export function plainStamp(text: string): string | undefined {
  const short = text.length < 40 ? withoutSeconds.exec(text) : null;
  if (short) return `${short[1]}:00${short[2]}`;
  if (text.length < 14 || text.length > 48) return undefined;
  const packed = digits.exec(text);
  if (packed) {
    const [, year, monthNumber, day, , hour, minute, second, , , offset = ''] = packed;
    if (Number(monthNumber) < 1 || Number(monthNumber) > 12 || Number(day) < 1 || Number(day) > 31) return undefined;
    const part = packed.at(8) ?? packed.at(9);
    return `${year}-${monthNumber}-${day} ${hour}:${minute}:${second}${part === undefined ? '' : `.${part}`}${offset}`;
  }
  // What every letter is among is looked for first: the pattern of all letters takes ms to be made.
  if (!/[A-Za-z\u0080-\uffff]/.test(text) || !/\p{L}{3}/u.test(text)) return undefined;
  const byDay = dayFirst.exec(text);
  if (byDay) return joined(byDay[3], byDay[2], byDay[1], byDay[4], byDay[5]);
  const byMonth = monthFirst.exec(text);
  if (byMonth) return joined(byMonth[3], byMonth[1], byMonth[2], byMonth[4], byMonth[5]);
  const byYear = yearLast.exec(text);
  return byYear ? joined(byYear[5], byYear[1], byYear[2], byYear[3], byYear[4]) : undefined;
}

function joined(year: string, name: string, day: string, time: string, offset = ''): string | undefined {
  const plain = name.toLowerCase();
  const index = months.findIndex((pattern) => pattern.test(plain));
  return index < 0
    ? undefined
    : `${year}-${String(index + 1).padStart(2, '0')}-${day.padStart(2, '0')} ${time}${offset}`;
}

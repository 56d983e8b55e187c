/** Units of acceleration that the length of the mean vector can show, with their size in m/s². g is standard gravity (ISO 80000-3). */
export const accelerationUnits: Readonly<Record<string, number>> = {
  g: 9.80665,
  mg: 9.80665e-3,
  'm/s^2': 1,
  'mm/s^2': 1e-3,
};

/** Units of acceleration that only a header or an option can tell, with their size in m/s². */
const rarer: Readonly<Record<string, number>> = {
  'cm/s^2': 1e-2,
  Gal: 1e-2,
  'ft/s^2': 0.3048,
  'in/s^2': 0.0254,
  '\u00b5m/s^2': 1e-6,
  '\u00b5g': 9.80665e-6,
};

/** Size in m/s² of a unit of acceleration in the language's spelling; undefined for any other unit. */
export function accelerationSize(symbol: string | undefined): number | undefined {
  return symbol === undefined ? undefined : (accelerationUnits[symbol] ?? rarer[symbol]);
}

const perSquareSecond =
  '(?:(?:\\/|p|per)s(?:ec(?:ond)?)?(?:\\^|\\*\\*)?2|\\/s²|\\/s\\/s|[ .·*]?s\\^?-2|[ .·*]?s⁻²|[ ]?(?:\\/|per)[ ]?sec(?:ond)?[ ]?(?:squared|\\^2|²)|[ ]per[ ]square[ ]second|persecondsquared)';
const lengths: readonly (readonly [string, string])[] = [
  ['(?:mm|millimet(?:er|re)s?)', 'mm/s^2'],
  ['(?:m|met(?:er|re)s?)', 'm/s^2'],
  ['(?:cm|centimet(?:er|re)s?)', 'cm/s^2'],
  ['(?:ft|feet|foot)', 'ft/s^2'],
  ['(?:in|inch|inches)', 'in/s^2'],
  ['(?:um|\u00b5m)', '\u00b5m/s^2'],
];

/** In small letters: to be held against a text in any, an engine needs twice as long to make them ready, some 3 ms more. */
const spellings: readonly (readonly [RegExp, string])[] = [
  [/^(g|gn|g[_ ]?n|g0|gs|gees?|g's|g-?force|g[_ ]?rms|g-units?)$/, 'g'],
  [/^(mg|mgs|mgn|milli[- ]?g(?:s|ees?)?)$/, 'mg'],
  [/^(ug|\u00b5g|micro[- ]?gs?)$/, '\u00b5g'],
  [/^gals?$/, 'Gal'],
];
const ofLengths = lengths.map(([length, symbol]) => [new RegExp(`^${length}${perSquareSecond}$`), symbol] as const);
/** What each of the latter has: of other texts they need not be made ready, which is 3 ms more. */
const squared = /[2²]|\/s\/s|square/;

/** Units of other quantities that the language knows, by the spellings that files use. */
const others = /^(s|ms|min|Hz|kHz|mm\/s|m|mm|in|km|mi|kg|lb|N|kgf|lbf|N\/mm|N\/m|Pa|kPa|bar|psi|m\/s|km\/h|mph|%|dB)$/;

/** The language's spelling of a unit as a file spells it, or undefined where the language has none. */
export function unitSymbol(text: string): string | undefined {
  const plain = text
    .trim()
    .replace(/\u03bc/g, '\u00b5')
    .replace(/(?<=[/*·])\s|\s(?=[/*·])|[()]/g, '');
  const small = plain.toLowerCase();
  const all = squared.test(small) ? [...spellings, ...ofLengths] : spellings;
  for (const [pattern, symbol] of all) if (pattern.test(small)) return symbol;
  if (others.test(plain)) return plain;
  return undefined;
}

/** Whether a text is the name of raw counts rather than of a unit. */
export function isCounts(text: string): boolean {
  return /^(raw|counts?|cnts?|lsbs?|adc|digits?|bits?|ticks)$/i.test(text.trim());
}

/** Whether a cell of a row above the numbers looks like a unit: `g`, `[m/s²]`, `(ms)`, `°C`, `raw`, `-`. */
export function looksLikeUnit(text: string): boolean {
  const plain = text.trim();
  if (/^[([{<].{0,16}[)\]}>]$/.test(plain)) return true;
  if (unitSymbol(plain) !== undefined || isCounts(plain)) return true;
  return /^(-|n\/a|none|no units?|unitless|us|µs|μs|ns|sec|secs|seconds?|millis|°c|degc|°f|c|k|°|deg|deg\/s|dps|rad\/s|ut|µt|μt|gauss|hpa|v|mv|a|ma|rpm|cm\/s\^?2)$/i.test(
    plain,
  );
}

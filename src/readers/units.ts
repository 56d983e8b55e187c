/** Units of acceleration that a recording may be in, with their size in m/s². g is standard gravity (ISO 80000-3). */
export const accelerationUnits: Readonly<Record<string, number>> = {
  g: 9.80665,
  mg: 9.80665e-3,
  'm/s^2': 1,
  'mm/s^2': 1e-3,
};

const spellings: readonly (readonly [RegExp, string])[] = [
  [/^(g|gn|g0|gs|g's|g-?force)$/i, 'g'],
  [/^(mg|milli-?gs?)$/i, 'mg'],
  [/^m(\/|p)s(ec)?(\^|\*\*)?2$|^m\/s²$|^m\/s\/s$|^m[ .·*]?s\^?-2$|^m[ .·]?s⁻²$/i, 'm/s^2'],
  [/^mm(\/|p)s(ec)?(\^|\*\*)?2$|^mm\/s²$|^mm\/s\/s$|^mm[ .·*]?s\^?-2$|^mm[ .·]?s⁻²$/i, 'mm/s^2'],
];

/** Units of other quantities that the language knows, by the spellings that files use. */
const others: readonly (readonly [RegExp, string])[] = [
  [/^(s|ms|min|Hz|kHz|mm\/s|m|mm|in|km|mi|kg|lb|N|kgf|lbf|N\/mm|N\/m|Pa|kPa|bar|psi|m\/s|km\/h|mph|%|dB)$/, '$1'],
];

/** The language's spelling of a unit as a file spells it, or undefined where the language has none. */
export function unitSymbol(text: string): string | undefined {
  const plain = text.trim().replace(/(?<=\/)\s|\s(?=\/)|[()]/g, '');
  for (const [pattern, symbol] of spellings) if (pattern.test(plain)) return symbol;
  for (const [pattern, symbol] of others) if (pattern.test(plain)) return plain.replace(pattern, symbol);
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

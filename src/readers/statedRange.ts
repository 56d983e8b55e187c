import { accelerationSize, accelerationUnits, unitSymbol } from './units.ts';

const ofRange = /\b(?:range|full[ _-]?scale)\b/i;
const size = /^[\s±+/-]*(\d+(?:[.,]\d+)?)\s*([a-zµ²/^\d]*)/i;
const unitOfKey = /[([_ ](m?g|m\/s\^?[2²])[)\]]?$/i;

/**
 * The end of an accelerometer's range in g, as the lines before a table state it: `Range: ±16 g`, `Accel range (g): 8`.
 * Undefined where none does, or in no unit of acceleration, as other ranges are.
 *
 * @param keys what the lines before the table state
 */
export function statedRange(keys: Readonly<Record<string, string>> = {}): number | undefined {
  for (const [key, text] of Object.entries(keys)) {
    if (!ofRange.test(key.replace(/_/g, ' '))) continue;
    const found = size.exec(text);
    if (found === null) continue;
    const [, figure, own] = found;
    const unit = own === '' ? unitOfKey.exec(key)?.[1] : own;
    const factor = unit === undefined ? undefined : accelerationSize(unitSymbol(unit));
    if (factor !== undefined) return (Number(figure.replace(',', '.')) * factor) / accelerationUnits.g;
  }
  return undefined;
}

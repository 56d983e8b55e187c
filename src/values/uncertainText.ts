import { effectiveDf, standardUncertainty, type UncertaintyParts } from '../units/uncertainty.ts';
import type { Quantity, Unit } from '../units/unit.ts';
import { fixed, plain, scientific } from './number.ts';
import { tenTo } from '../numbers/power.ts';
import { log10Of } from '../numbers/logarithm.ts';

interface Told {
  readonly quantity: Quantity;
  readonly parts?: UncertaintyParts;
  readonly coverage?: { readonly confidence: number; readonly factor: number };
}

/**
 * `66.67 ± 0.98 N/mm`: the uncertainty to two digits, the value to the same place (JCGM 100:2008, 7.2.6). Without one the
 * value alone; with a coverage the expanded one, its k and degrees of freedom.
 */
export function quantityText(
  { quantity: { value, unit }, parts, coverage }: Told,
  digits = 4,
  printed = ({ symbol }: Unit): string => symbol,
): string {
  const symbol = printed(unit);
  const inUnit = (text: string): string => (symbol === '' ? text : `${text} ${symbol}`);
  const standard = parts && standardUncertainty(parts);
  if (parts === undefined || standard === undefined || !Number.isFinite(standard)) return inUnit(plain(value, digits));
  const size = standard * (coverage?.factor ?? 1);
  const both = `${rounded(value, size)} ± ${rounded(size, size)}`;
  return `${inUnit(both)}${coverage === undefined ? '' : coverageWords(coverage, parts)}`;
}

function coverageWords({ confidence, factor }: NonNullable<Told['coverage']>, parts: UncertaintyParts): string {
  const df = effectiveDf(parts);
  const freedom = Number.isFinite(df) ? `, ${plain(df, 3)} degrees of freedom` : '';
  return ` (${plain(100 * confidence, 4)} %, k = ${fixed(factor, 2)}${freedom})`;
}

/** To the place of the second digit of an uncertainty. */
function rounded(value: number, size: number): string {
  if (size === 0) return plain(value, 6);
  const place = Math.floor(log10Of(Number(size.toPrecision(2)))) - 1;
  const far = place < -8 || place > 4;
  if (far) return scientific(value, Math.max(2, Math.floor(log10Of(Math.abs(value) || size)) - place + 1));
  return fixed(Number((Math.round(value / tenTo(place)) * tenTo(place)).toPrecision(15)), Math.max(0, -place));
}

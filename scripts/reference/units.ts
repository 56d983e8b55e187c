import { inSI } from '../../src/units/arithmetic.ts';
import { atoms, atomSymbols, usualCompounds } from '../../src/units/atoms.ts';
import { describeDimension, nameOfDimension, preferredSymbol } from '../../src/units/dimension.ts';
import { formatNumber } from '../../src/units/format.ts';
import { unit } from '../../src/units/parse.ts';
import type { Dimension } from '../../src/units/unit.ts';
import { table } from './markdown.ts';

/** Every unit by what it measures, with its other spellings and its size. */
export function unitTable(): string {
  const compounds = usualCompounds.filter((symbol) => nameOfDimension(unit(symbol).dimension) !== undefined);
  const symbols = [...new Set([...atomSymbols, ...compounds])];
  const groups = new Map<string, string[]>();
  for (const symbol of symbols) {
    const measure = measureOf(unit(symbol).dimension);
    groups.set(measure, [...(groups.get(measure) ?? []), symbol]);
  }
  const rows = [...groups].flatMap(([measure, members]) =>
    members.map((symbol, index) => [index === 0 ? measure : '', `\`${symbol}\``, spellingsOf(symbol), sizeOf(symbol)]),
  );
  return table(['Measures', 'Unit', 'Also', 'Size'], rows);
}

const measureOf = (dimension: Dimension): string =>
  nameOfDimension(dimension) ?? describeDimension(dimension).replace('a quantity in ', '');

const spellingsOf = (symbol: string): string =>
  [...atoms]
    .filter(([spelling, atom]) => atom.symbol === symbol && spelling !== symbol)
    .map(([spelling]) => `\`${spelling}\``)
    .join(', ');

function sizeOf(symbol: string): string {
  const { dimension } = unit(symbol);
  const name = nameOfDimension(dimension);
  const base = name === undefined ? undefined : preferredSymbol(name);
  if (base === undefined || base === symbol) return '';
  return `${formatNumber(inSI({ value: 1, unit: unit(symbol) }), 12)} ${base}`.trim();
}

import { convert } from '../units/arithmetic.ts';
import { parseUnit } from '../units/parse.ts';
import type { Quantity } from '../units/unit.ts';
import { success, type Message, type Result } from '../result/result.ts';
import { descriptionOf } from '../values/kinds.ts';
import { refuse, tell } from './messages.ts';
import type { RunReport, StatementResult } from './result.ts';

/** A number that stands in prose, and what it is said to be. */
export interface AskedNumber {
  /** As written, with its sign: `−21.5`; empty where there is none. */
  readonly text: string;
  /** What stands behind it, such as `%`; empty where it is in the result's own unit. */
  readonly unit: string;
  readonly expression: string;
}

/** What became of one: it agrees, it should read otherwise, or it can't be told, with the reason. */
export type NumberCheck =
  | { readonly state: 'agrees' }
  | { readonly state: 'differs'; readonly text: string; readonly message: Message }
  | { readonly state: 'wrong'; readonly message: Message }
  /** Its cells were not run. */
  | { readonly state: 'unknown' };

/** The notebook's cells, and one for each number: it is evaluated as any other, and can bind no name. */
export const withNumberCells = (cells: readonly string[], numbers: readonly AskedNumber[]): string[] => [
  ...cells,
  ...numbers.map(({ expression }) => `(${expression.replace(/\s+/g, ' ')})`),
];

/** A run of {@link withNumberCells} parted again: the notebook's own report, and what became of the numbers. */
export function parted(
  report: RunReport,
  count: number,
  numbers: readonly AskedNumber[],
): { readonly report: RunReport; readonly numbers: readonly NumberCheck[] } {
  const results = report.results.filter(({ cell }) => cell < count);
  const isWhole = !report.cancelled && results.every(({ error }) => error === undefined);
  const found = new Map(report.results.filter(({ cell }) => cell >= count).map((result) => [result.cell, result]));
  return {
    report: { ...report, results, ok: report.ok || isWhole },
    numbers: numbers.map((asked, at) => checkNumber(asked, found.get(count + at))),
  };
}

/** Holds a number against what its expression gave; undefined where that is not known. */
export function checkNumber(asked: AskedNumber, result: StatementResult | undefined): NumberCheck {
  const { text, expression } = asked;
  if (text === '') return { state: 'wrong', message: tell('prose.number', { expression }) };
  if (result?.error !== undefined) return { state: 'wrong', message: result.error };
  const value = result?.value;
  if (value === undefined) return { state: 'unknown' };
  if (value.kind !== 'quantity')
    return { state: 'wrong', message: tell('prose.kind', { expression, kind: descriptionOf(value).words }) };
  const right = writtenLike(asked, value.quantity);
  if (!right.ok) return { state: 'wrong', message: right.failure };
  if (plainSigns(right.value) === plainSigns(text)) return { state: 'agrees' };
  const facts = { written: text, unit: asked.unit, now: right.value, expression };
  return { state: 'differs', text: right.value, message: tell('prose.differs', facts) };
}

/** A quantity as a number is written: in its unit, with as many decimals, its kind of minus sign, and its plus sign if it has one. */
function writtenLike({ text, unit, expression }: AskedNumber, quantity: Quantity): Result<string> {
  const parsed = unit === '' ? undefined : parseUnit(unit);
  if (parsed?.ok === false) return refuse('prose.unit', { unit });
  const found = parsed === undefined ? quantity : convert(quantity, parsed.unit);
  if (found === undefined) return refuse('prose.dimension', { expression, unit, own: quantity.unit.symbol });
  const [mantissa, ...exponent] = plainSigns(text).toLowerCase().split('e');
  const decimals = mantissa.split('.').at(1)?.length ?? 0;
  const digits = exponent.length === 0 ? found.value.toFixed(decimals) : found.value.toExponential(decimals);
  const size = digits.replace(/^-/, '');
  const isZero = !/[1-9]/.test(size.split('e')[0]);
  const sign = isZero ? '' : found.value < 0 ? (text.startsWith('-') ? '-' : '−') : text.startsWith('+') ? '+' : '';
  return success(sign + size.replace('e+', 'e'));
}

const plainSigns = (text: string): string => text.replaceAll('−', '-').replace(/^-(?=[0.]*$)/, '');

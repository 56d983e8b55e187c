import { conditionNamed, type OrderValue } from '../../values/order.ts';
import { plain } from '../../values/number.ts';
import { some, type Presenter } from './kind.ts';

/** The order as it is to be ridden, what a steady drift would do to it, and the run sheet to be filled in. */
export const presentOrder: Presenter<'order'> = (value) =>
  some(
    { type: 'text', text: orderText(value) },
    value.sheet === undefined ? undefined : { type: 'text', text: 'Run sheet to be filled in, as CSV:' },
    value.sheet === undefined ? undefined : { type: 'text', style: 'verbatim', text: value.sheet.trimEnd() },
  );

function orderText({ scheme, sequence, leanPercent, conditions }: OrderValue): string {
  const lines = [`${scheme}: ${sequence.join(' ')}`];
  if (conditions !== undefined) {
    const letters = [...new Set(sequence)].sort();
    const names = letters.map((letter) => `${letter} is ${conditionNamed(letter, conditions)}`).join(', ');
    lines.push(`${names}: ${sequence.map((letter) => conditionNamed(letter, conditions)).join(', ')}.`);
  }
  lines.push(
    Math.abs(leanPercent) < 1e-9
      ? 'A steady drift from run to run cancels out.'
      : `A steady drift of 1 % a run would lean the change by ${plain(leanPercent, 3)} %.`,
  );
  return lines.join('\n');
}

import type { OrderValue } from '../../verbs/values/planning.ts';
import { plain } from '../number.ts';
import { some, type Presenter } from './kind.ts';

/** The order as it is to be ridden, what a steady drift would do to it, and the run sheet to be filled in. */
export const presentOrder: Presenter<'order'> = (value) =>
  some(
    { type: 'text', text: orderText(value) },
    value.sheet === undefined
      ? undefined
      : { type: 'text', text: `Run sheet to be filled in, as CSV:\n${value.sheet.trimEnd()}` },
  );

function orderText({ scheme, sequence, leanPercent, conditions }: OrderValue): string {
  const lines = [`${scheme}: ${sequence.join(' ')}`];
  if (conditions !== undefined) lines.push(`A is ${conditions[0]}, B is ${conditions[1]}.`);
  lines.push(
    Math.abs(leanPercent) < 1e-9
      ? 'A steady drift from run to run cancels out.'
      : `A steady drift of 1 % a run would lean the change by ${plain(leanPercent, 3)} %.`,
  );
  return lines.join('\n');
}

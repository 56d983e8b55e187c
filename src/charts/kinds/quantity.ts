import { printedUnit } from '../../values/number.ts';
import { quantityText } from '../../values/uncertainText.ts';
import type { Presenter } from './kind.ts';

/** `4.123 Hz`, `12.3 ± 0.2 Hz`: to 4 digits, as in tables; a whole number in full. */
export const presentQuantity: Presenter<'quantity'> = (value) => [
  { type: 'text', text: quantityText(value, 4, ({ symbol }) => printedUnit(symbol)) },
];

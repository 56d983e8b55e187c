import { printedUnit } from '../../values/number.ts';
import { quantityText } from '../../values/uncertainText.ts';
import type { Presenter } from './kind.ts';

/** `4.123 Hz`, `12.3 ± 0.2 Hz`. */
export const presentQuantity: Presenter<'quantity'> = (value) => [
  { type: 'text', text: quantityText(value, 6, ({ symbol }) => printedUnit(symbol)) },
];

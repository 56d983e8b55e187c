import { plain, printedUnit } from '../../values/number.ts';
import type { Presenter } from './kind.ts';

/** `4.123 Hz`. */
export const presentQuantity: Presenter<'quantity'> = ({ quantity: { value, unit } }) => [
  { type: 'text', text: unit.symbol === '' ? plain(value) : `${plain(value)} ${printedUnit(unit.symbol)}` },
];

import { detail, figure } from './columns.ts';
import type { Description } from './description.ts';
import type { Quantity } from '../units/unit.ts';
import { formatQuantity } from '../units/format.ts';

export interface QuantityValue {
  readonly kind: 'quantity';
  readonly quantity: Quantity;
}

export const quantityKind = {
  kind: 'quantity',
  words: 'a quantity',
  summary: ({ quantity }) => formatQuantity(quantity, 6),
  caption: () => '',
  whole: [
    figure(
      'value',
      ({ quantity }) => quantity.unit,
      ({ quantity }) => quantity.value,
    ),
    detail('unit', ({ quantity }) => quantity.unit.symbol, 'text'),
  ],
  runs: () => [],
} satisfies Description<QuantityValue>;

import type { Description } from './description.ts';
import type { Quantity } from '../units/unit.ts';

export interface QuantityValue {
  readonly kind: 'quantity';
  readonly quantity: Quantity;
}

export const quantityKind = {
  kind: 'quantity',
  words: 'a quantity',
  caption: () => '',
  whole: [
    { key: 'value', unit: ({ quantity }) => quantity.unit, read: ({ quantity }) => quantity.value },
    { key: 'unit', json: ({ quantity }) => quantity.unit.symbol },
  ],
  runs: () => [],
} satisfies Description<QuantityValue>;

import type { Quantity } from '../units/unit.ts';

export interface QuantityValue {
  readonly kind: 'quantity';
  readonly quantity: Quantity;
}

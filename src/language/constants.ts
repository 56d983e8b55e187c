import { quantity } from '../units/arithmetic.ts';
import type { Quantity } from '../units/unit.ts';

/** Constants of the language; pi is half a turn, so that 2 pi turns Hz into rad/s and back. */
export const constants: Readonly<Record<string, Quantity>> = { pi: quantity(Math.PI, 'rad') };

import type { Quantity, Unit } from '../units/unit.ts';
import type { Value, ValueOf } from '../values/value.ts';
import type { Argument, Arguments } from './verb.ts';
/** The value under an operand's name, which the form guarantees to be of this kind. */
export declare function valueOf<K extends Value['kind']>(given: Arguments, name: string, kind: K): ValueOf<K>;
/** An argument under an operand's name or an option's keyword, or undefined. */
export declare const operand: (given: Arguments, name: string) => Argument | undefined;
export declare const option: (given: Arguments, name: string) => Argument | undefined;
export declare const hasFlag: (given: Arguments, name: string) => boolean;
export declare function quantityIn(argument: Argument | undefined): Quantity | undefined;
/** An option's quantity in SI units: s, Hz, a plain ratio. */
export declare function siOf(given: Arguments, name: string): number | undefined;
/** In SI units; 95 % is 0.95 and not the 0.9500000000000001 that 95 times 0.01 gives. */
export declare function si({ value, unit }: Quantity): number;
export declare function textOf(argument: Argument | undefined): string | undefined;
export declare function wordOf(argument: Argument | undefined): string | undefined;
export declare function unitOf(argument: Argument | undefined): Unit | undefined;

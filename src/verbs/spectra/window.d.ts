import type { WindowValue } from '../../values/window.ts';
import type { Argument, Verb } from '../verb.ts';
/** What a spectrum takes when no window is given. */
export declare const defaultWindow: WindowValue;
export declare const window: Verb;
/** The window an option `using` names: a window value, or the name of a shape at the usual length. */
export declare function windowOf(argument: Argument | undefined): WindowValue;

import { setFlagsFromString } from 'node:v8';
import { isTriedEngine } from './triedEngine.ts';

/** Bytes of bytecode after which V8 looks whether a function is worth compiling well; its own is 132 KiB. */
const budget = 8 * 132 * 1024;

/**
 * Has functions run longer before V8 compiles them well. Long loops are WebAssembly here, so that a study of some seconds spends a
 * seventh of its processor time on compiling what has hardly anything left to do. Not for a process that is shared with others.
 */
export function compileLate(): void {
  if (isTriedEngine()) setFlagsFromString(`--interrupt-budget=${budget}`);
}

import { setFlagsFromString } from 'node:v8';

/** The engine that this was tried on; another may not know the flag, and would say so. */
const tried = /^11\./;

let isKept = false;

/**
 * Keeps this process's room for short-lived objects at the 2 MB that it begins with, where V8 would make 32 of it, which
 * a program that goes over one recording after another hardly gains from. Not for a process that is shared with others.
 */
export function keepYoungMemorySmall(): void {
  isKept = tried.test(process.versions.v8);
  keptSmall();
}

/** To be told after a thread was started, which sets the factor back. */
export function keptSmall(): void {
  if (isKept) setFlagsFromString('--semi-space-growth-factor=1');
}

import type { Platform } from './platform.ts';

let platform: Platform | undefined;

/** Where the extension runs, as its entry has said. */
export function here(): Platform {
  if (platform === undefined) throw new Error('no entry has said where the extension runs');
  return platform;
}

/** Says where the extension runs, before anything of it is used. */
export function runsOn(given: Platform): void {
  platform = given;
}

import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));

/** A file that is shipped with the program: in the built one beside it, else in the package it comes from. */
export function assetPath(name: string, fromPackage: string): string {
  const built = join(here, name);
  return existsSync(built) ? built : createRequire(import.meta.url).resolve(fromPackage);
}

/** A file of `media`, which lies beside the built program's folder, and two floors above the source. */
export function mediaPath(name: string): string {
  const built = join(here, '..', 'media', name);
  return existsSync(built) ? built : join(here, '..', '..', 'media', name);
}

import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));

/**
 * A file that goes with the program: in the built one beside it, else in the package it comes from; undefined where an installation
 * has neither.
 */
function assetPath(name: string, fromPackage: string): string | undefined {
  const built = join(here, name);
  if (existsSync(built)) return built;
  try {
    return createRequire(import.meta.url).resolve(fromPackage);
  } catch {
    return undefined;
  }
}

/** What draws PNG: resvg, compiled to WebAssembly. */
export const resvgPath = (): string | undefined => assetPath('resvg.wasm', '@resvg/resvg-wasm/index_bg.wasm');

/** A file of `media`, which lies beside the built program's folder, and two floors above the source. */
export function mediaPath(name: string): string {
  const built = join(here, '..', 'media', name);
  return existsSync(built) ? built : join(here, '..', '..', 'media', name);
}

import type { Metafile } from 'esbuild';

/** Where the build puts the notices. */
export const noticesFile: string;

/** One text with the name, version and whole licence of each package that is bundled, of ports in our own files and of fonts. */
export function noticesOf(metafiles: readonly Metafile[], root: string): string;

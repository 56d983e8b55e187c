import type { BuildOptions } from 'esbuild';

/** The options of each bundle, for esbuild. */
export function bundlesOf(project: {
  readonly root: string;
  readonly version: string;
  readonly minify?: boolean;
}): readonly BuildOptions[];

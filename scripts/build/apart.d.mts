import type { Plugin } from 'esbuild';

export const rendererApart: string;
export const apartOfRenderer: Plugin;
export const denseStyles: Plugin;

/** Names of the parts of the extension that a browser loads. */
export const webParts: readonly string[];
/** An esbuild plugin that leaves what a reading thread does by itself beside its program. */
export const apartOfThread: Plugin;

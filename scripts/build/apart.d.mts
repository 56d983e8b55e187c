import type { Plugin } from 'esbuild';

export const rendererApart: string;
export const apartOfRenderer: Plugin;

// What is loaded on demand. The libraries that write PDF, PNG and Parquet are larger than all else of the command line. Each has a file of its own, which is
// loaded when such a file is to be written, and the extension host and the engine's worker have none of them.

import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';

/** Files of src/files that are bundled by themselves. */
export const loadedApart = ['pdf', 'png', 'parquet'];

/** An esbuild plugin that leaves them where they are until they are asked for. */
export const apart = {
  name: 'loaded-apart',
  setup({ onResolve }) {
    onResolve({ filter: new RegExp(`^\\./(?:${loadedApart.join('|')})\\.ts$`) }, ({ path, kind, importer }) =>
      kind === 'dynamic-import' && /[\\/]src[\\/]files[\\/]/.test(importer)
        ? { path: path.replace(/ts$/, 'cjs'), external: true }
        : undefined,
    );
  },
};

/** An esbuild plugin that leaves what a reading thread does by itself beside its program, which is small and starts soon. */
export const apartOfThread = {
  name: 'loaded-apart-of-thread',
  setup({ onResolve }) {
    onResolve({ filter: /^\.\/readingWork\.ts$/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { path: './readingWork.mjs', external: true } : undefined,
    );
  },
};

/** Parts of the editor's host that are bundled by themselves, by the name of the bundle: its start waits for none of them. */
export const hostApart = {
  here: 'src/editor/here.ts',
  answering: 'src/editor/answering.ts',
  language: 'src/editor/language/register.ts',
  changed: 'src/editor/changed/show.ts',
  keptOutputs: 'src/editor/keptOutputs.ts',
  moves: 'src/editor/handles/moves.ts',
  prose: 'src/editor/prose/register.ts',
  shownOutputs: 'src/editor/shownOutputs.ts',
  starting: 'src/editor/starting/parts.ts',
  products: 'src/editor/products/parts.ts',
  localFiles: 'src/editor/node/localFiles.ts',
  recordInGit: 'src/editor/changed/recordInGit.ts',
  textStore: 'src/disk/textStore.ts',
};

/** Those among them that run in Node alone: no browser loads them. */
const ofNode = ['products', 'localFiles', 'recordInGit', 'textStore'];

/** Those that a browser loads: the entry that runs there has the first of them, `here`, in itself. */
export const webParts = Object.keys(hostApart).filter((name) => name !== 'here' && !ofNode.includes(name));

/**
 * An esbuild plugin that leaves those parts where they are until they are asked for; `here` is one for all of them.
 * @param ownHere whether the bundle has that one in itself
 */
export const apartOfHost = (ownHere = false) => ({
  name: 'loaded-apart-of-host',
  setup({ onResolve }) {
    onResolve({ filter: /^\..*\.ts$/ }, ({ path, kind, resolveDir }) => {
      const isHere = kind === 'import-statement' && /\/here\.ts$/.test(path);
      if (isHere ? ownHere : kind !== 'dynamic-import') return undefined;
      const file = resolve(resolveDir, path).replaceAll('\\', '/');
      const name = Object.keys(hostApart).find((one) => file.endsWith(`/${hostApart[one]}`));
      return name === undefined ? undefined : { path: `./${name}.cjs`, external: true };
    });
  },
});

/** What lays handles over charts: a file beside the renderer's, loaded where somebody can write what they move. */
export const rendererApart = 'src/renderer/handles/index.ts';

/** An esbuild plugin that leaves it where it is until it is asked for. */
export const apartOfRenderer = {
  name: 'loaded-apart-of-renderer',
  setup({ onResolve }) {
    onResolve({ filter: /^\.\/handles\/index\.ts$/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { path: './handles.js', external: true } : undefined,
    );
  },
};

/** An esbuild plugin that takes the blanks out of the style sheets of what draws, which stand in texts that nobody else makes smaller. */
export const denseStyles = {
  name: 'dense-styles',
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]renderer[\\/](handles[\\/])?style\.ts$/ }, async ({ path }) => ({
      contents: (await readFile(path, 'utf8')).replace(/(?<=const css = `)[^`]*/, (css) =>
        css
          .replace(/([{};,])\s+/g, '$1')
          .replace(/\s+([{}])/g, '$1')
          .replaceAll(': ', ':')
          .replaceAll(';}', '}')
          .trim(),
      ),
      loader: 'ts',
    }));
  },
};

/** Tells a bundle in CommonJS its own place, by which it finds the files that are shipped with it. */
export const whereItIs = {
  banner: { js: "const bundleUrl = require('node:url').pathToFileURL(__filename).href;" },
  define: { 'import.meta.url': 'bundleUrl' },
};

// What is bundled, and how: the extension host, the engine's worker, the renderer and the command line.
import {
  apart,
  apartOfHost,
  apartOfRenderer,
  apartOfThread,
  denseStyles,
  hostApart,
  loadedApart,
  rendererApart,
  webParts,
  whereItIs,
} from './apart.mjs';
import { engineDigest } from './engineDigest.mjs';
import { nodeBrotli } from './brotli.mjs';
import { formsOnly } from './forms.mjs';

// Vega's entry for Node awaits an optional canvas at the top level, which no CommonJS file can: its browser build serves.
const vegaInNode = {
  platform: 'node',
  mainFields: ['module', 'main'],
  conditions: ['browser', 'module', 'import', 'default'],
};
// The compiler of Vega-Lite wants four small functions of Vega, which its utilities have too.
const compilerOnly = {
  ...vegaInNode,
  alias: { vega: 'vega-util', 'vega-canvas': './node_modules/vega-canvas/build/vega-canvas.browser.js' },
};

const ofHost = {
  format: 'cjs',
  platform: 'node',
  external: ['vscode'],
  // By `require`, which the editor answers when a part asks for its own module.
  supported: { 'dynamic-import': false },
  plugins: [formsOnly, apartOfHost()],
};

// What is loaded in a browser: `require` there knows the editor alone, so that the parts are read before, and found by `partOf`.
const inBrowser = {
  ...ofHost,
  entryPoints: ['src/editor/web/extension.ts'],
  platform: 'browser',
  banner: {
    js: "var partOf, ofEditor = require; require = (name) => (name === 'vscode' ? ofEditor(name) : partOf(name));",
  },
  define: { 'process.env.WASHBOARD_PARTS': JSON.stringify(webParts.join(' ')) },
  plugins: [formsOnly, apartOfHost(true)],
};

const bundles = [
  { entryPoints: ['src/editor/node/extension.ts'], outfile: 'dist/extension.cjs', ...ofHost },
  // Older editors add `.js` to the name of the entry: they find the same under that.
  ...['cjs', 'cjs.js'].map((ending) => ({ ...inBrowser, outfile: `dist/web/extension.${ending}` })),
  ...Object.entries(hostApart).map(([name, file]) => ({
    entryPoints: [file],
    outfile: `dist/${name}.cjs`,
    ...ofHost,
  })),
  { entryPoints: ['src/renderer/prose.ts'], outfile: 'dist/proseMarks.js', format: 'esm', platform: 'browser' },
  {
    entryPoints: ['src/renderer/index.ts'],
    outfile: 'dist/renderer.js',
    format: 'esm',
    platform: 'browser',
    plugins: [apartOfRenderer, denseStyles],
  },
  {
    entryPoints: [rendererApart],
    outfile: 'dist/handles.js',
    format: 'esm',
    platform: 'browser',
    plugins: [denseStyles],
  },
  // The editor's engines, in Node and in a browser, and the command line hold the same engine: it is written once, in files that
  // all load, and what few commands need lies in files that are loaded then.
  {
    entryPoints: {
      worker: 'src/editor/node/worker.ts',
      webWorker: 'src/editor/web/worker.ts',
      washboard: 'src/cli/main.ts',
      readingWork: 'src/disk/readingWork.ts',
    },
    outdir: 'dist',
    format: 'esm',
    splitting: true,
    outExtension: { '.js': '.mjs' },
    chunkNames: 'part-[hash]',
    ...compilerOnly,
    banner: { js: '#!/usr/bin/env node' },
    plugins: [apart, nodeBrotli],
  },
  // A thread is up sooner by a CommonJS file.
  {
    entryPoints: ['src/disk/readingThread.ts'],
    outfile: 'dist/reading.cjs',
    format: 'cjs',
    platform: 'node',
    plugins: [apartOfThread],
  },
  ...loadedApart.map((name) => ({
    entryPoints: [`src/files/${name}.ts`],
    outfile: `dist/${name}.cjs`,
    format: 'cjs',
    platform: 'node',
    ...whereItIs,
    plugins: [nodeBrotli],
  })),
];

/** The options of each bundle, for esbuild. @param root absolute path of the project @param version of the package */
export const bundlesOf = ({ root, version, minify = true }) =>
  bundles.map((bundle) => ({
    absWorkingDir: root,
    bundle: true,
    minify,
    // Names of classes and functions are shown in error reports.
    keepNames: false,
    sourcemap: minify ? false : 'linked',
    target: 'es2022',
    logLevel: 'warning',
    // Licences go whole into the notices instead.
    legalComments: 'none',
    metafile: true,
    ...bundle,
    define: {
      ...bundle.define,
      'process.env.WASHBOARD_VERSION': JSON.stringify(version),
      'process.env.WASHBOARD_ENGINE': JSON.stringify(engineDigest(root)),
    },
  }));

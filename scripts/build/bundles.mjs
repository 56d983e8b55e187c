// What is bundled, and how: the extension host, the engine's worker, the renderer and the command line.
import { apart, apartOfHost, apartOfRenderer, hostApart, loadedApart, rendererApart, whereItIs } from './apart.mjs';
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
  plugins: [formsOnly, apartOfHost],
};

const bundles = [
  { entryPoints: ['src/editor/extension.ts'], outfile: 'dist/extension.cjs', ...ofHost },
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
    plugins: [apartOfRenderer],
  },
  { entryPoints: [rendererApart], outfile: 'dist/handles.js', format: 'esm', platform: 'browser' },
  // The editor's engine and the command line hold the same engine: it is written once, in files that both load, and what
  // few commands need lies in files that are loaded then.
  {
    entryPoints: { worker: 'src/editor/worker.ts', washboard: 'src/cli/main.ts', reading: 'src/disk/readingThread.ts' },
    outdir: 'dist',
    format: 'esm',
    splitting: true,
    outExtension: { '.js': '.mjs' },
    chunkNames: 'part-[hash]',
    ...compilerOnly,
    // Packages in CommonJS ask for parts of Node in their own way.
    banner: {
      js: "#!/usr/bin/env node\nimport { createRequire as requireOf } from 'node:module';\nconst require = requireOf(import.meta.url);",
    },
    plugins: [apart, nodeBrotli],
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

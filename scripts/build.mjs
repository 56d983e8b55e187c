// Bundles the extension host, the engine's worker, the renderer and the command line into dist/.
import { build } from 'esbuild';
import { readFile, rm } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { formsOnly, holdToForms } from './build/forms.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const minify = !process.argv.includes('--no-minify');
const { version } = JSON.parse(await readFile(new URL('../package.json', import.meta.url), 'utf8'));
const common = {
  absWorkingDir: root,
  bundle: true,
  minify,
  // Names of classes and functions are shown in error reports.
  keepNames: false,
  sourcemap: minify ? false : 'linked',
  target: 'es2022',
  logLevel: 'warning',
  legalComments: 'none',
  metafile: true,
  define: { 'process.env.WASHBOARD_VERSION': JSON.stringify(version) },
};
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

await rm(new URL('../dist', import.meta.url), { recursive: true, force: true });
const bundles = [
  {
    entryPoints: ['src/editor/extension.ts'],
    outfile: 'dist/extension.cjs',
    format: 'cjs',
    platform: 'node',
    external: ['vscode'],
    plugins: [formsOnly],
  },
  { entryPoints: ['src/editor/worker.ts'], outfile: 'dist/worker.cjs', format: 'cjs', ...compilerOnly },
  { entryPoints: ['src/renderer/index.ts'], outfile: 'dist/renderer.js', format: 'esm', platform: 'browser' },
  {
    entryPoints: ['src/cli/main.ts'],
    outfile: 'dist/washboard.cjs',
    format: 'cjs',
    ...compilerOnly,
    banner: { js: '#!/usr/bin/env node' },
  },
];
for (const bundle of bundles) {
  const { metafile } = await build({ ...common, ...bundle });
  const [[file, { bytes }]] = Object.entries(metafile.outputs).filter(([name]) => !name.endsWith('.map'));
  if (file === 'dist/extension.cjs') holdToForms(metafile);
  console.error(`${file}  ${(bytes / 1024).toFixed(0)} kB`);
}

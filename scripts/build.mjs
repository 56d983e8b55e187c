// Bundles the extension host, the engine's worker, the renderer and the command line into dist/.
import { build } from 'esbuild';
import { copyFile, readFile, rm, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { hostApart } from './build/apart.mjs';
import { bundlesOf } from './build/bundles.mjs';
import { holdToForms } from './build/forms.mjs';
import { noticesFile, noticesOf } from './build/notices.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const minify = !process.argv.includes('--no-minify');
const { version } = JSON.parse(await readFile(new URL('../package.json', import.meta.url), 'utf8'));

const host = ['extension', 'web/extension', ...Object.keys(hostApart)].map((name) => `dist/${name}.cjs`);
await rm(new URL('../dist', import.meta.url), { recursive: true, force: true });
const metafiles = [];
for (const bundle of bundlesOf({ root, version, minify })) {
  const { metafile } = await build(bundle);
  metafiles.push(metafile);
  if (host.some((file) => file in metafile.outputs)) holdToForms(metafile);
  for (const [file, { bytes }] of Object.entries(metafile.outputs))
    if (!file.endsWith('.map')) console.error(`${file}  ${(bytes / 1024).toFixed(0)} kB`);
}
await writeFile(new URL(`../${noticesFile}`, import.meta.url), noticesOf(metafiles, root));
await copyFile(
  new URL('../node_modules/@resvg/resvg-wasm/index_bg.wasm', import.meta.url),
  new URL('../dist/resvg.wasm', import.meta.url),
);

/**
 * Builds scripts/wasm/welch.ts with AssemblyScript into src/signal/welchKernel.ts: `node scripts/wasm/build.mjs`.
 * With `--print` the text goes to the standard output instead, for the test that holds the committed file against it.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import asc from 'assemblyscript/asc';

const source = fileURLToPath(new URL('welch.ts', import.meta.url));
const target = fileURLToPath(new URL('../../src/signal/welchKernel.ts', import.meta.url));
const options = [
  'welch.ts',
  '--outFile',
  'welch.wasm',
  '-O3',
  '--runtime',
  'stub',
  '--importMemory',
  '--enable',
  'simd',
  '--noAssert',
];

let binary;
const { error, stderr } = await asc.main(options, {
  readFile: (name) => (name === 'welch.ts' ? readFileSync(source, 'utf8') : null),
  writeFile: (name, contents) => {
    if (name === 'welch.wasm') binary = contents;
  },
  listFiles: () => [],
});
if (error) {
  console.error(stderr.toString());
  throw error;
}
const base64 = Buffer.from(binary).toString('base64');
const lines = base64.match(/.{1,110}/g).map((line) => `  '${line}'`);
const text = `/**
 * The compiled form of scripts/wasm/welch.ts (${binary.length} bytes), written by scripts/wasm/build.mjs.
 */
export const welchKernel =
${lines.join(' +\n')};
`;
if (process.argv.includes('--print')) process.stdout.write(text);
else writeFileSync(target, text);

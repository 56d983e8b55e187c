/**
 * Builds the loops in this folder with AssemblyScript into the files of src/ that hold them compiled: `node
 * scripts/wasm/build.mjs`. With `--print NAME` the text of one goes to the standard output instead, for the test that
 * holds the committed file against it.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import asc from 'assemblyscript/asc';

/** Where each loop goes when it is compiled, and under which name. */
const targets = {
  welch: ['src/signal/welchKernel.ts', 'welchKernel'],
  scan: ['src/readers/text/scanKernel.ts', 'scanKernel'],
  columns: ['src/readers/columnKernel.ts', 'columnKernel'],
};

/** A memory that has a most: `src/numbers/compiled.ts` says what for. */
const limits = ['--initialMemory', '1', '--maximumMemory', '65536'];

async function compiled(name) {
  const file = `${name}.ts`;
  const options = [file, '--outFile', `${name}.wasm`, '-O3', '--runtime', 'stub', '--importMemory', '--enable', 'simd', ...limits];
  let binary;
  const { error, stderr } = await asc.main([...options, '--noAssert'], {
    readFile: (wanted) => {
      const path = new URL(wanted, import.meta.url);
      return existsSync(path) ? readFileSync(path, 'utf8') : null;
    },
    writeFile: (written, contents) => {
      if (written === `${name}.wasm`) binary = contents;
    },
    listFiles: () => [],
  });
  if (error) {
    console.error(stderr.toString());
    throw error;
  }
  return binary;
}

async function textOf(name) {
  const binary = await compiled(name);
  const lines = Buffer.from(binary)
    .toString('base64')
    .match(/.{1,110}/g)
    .map((line) => `  '${line}'`);
  return `/**
 * The compiled form of scripts/wasm/${name}.ts (${binary.length} bytes), written by scripts/wasm/build.mjs.
 */
export const ${targets[name][1]} =
${lines.join(' +\n')};
`;
}

const print = process.argv.indexOf('--print');
if (print > 0) process.stdout.write(await textOf(process.argv[print + 1]));
else
  for (const [name, [file]] of Object.entries(targets))
    writeFileSync(fileURLToPath(new URL(`../../${file}`, import.meta.url)), await textOf(name));
